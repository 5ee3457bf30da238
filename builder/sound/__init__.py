"""From a recording of a car's radio to facts about its pairs; pure, over arrays of samples.

Needs numpy and scipy, which `loombook[sound]` brings: whoever imports a module of this package
does so late.
"""
