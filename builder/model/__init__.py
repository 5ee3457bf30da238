"""The records as typed, frozen values. Built by `builder.parsing`, read by everything else."""
