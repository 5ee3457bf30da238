"""How colours look and how far apart they look: sRGB, CIELAB, CIEDE2000, colour-deficient eyes."""
