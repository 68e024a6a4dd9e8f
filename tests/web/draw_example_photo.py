"""Draws examples/heronmoor/fill_valve.png, which stands where a real owner would put a photograph: three pipes that meet
at a valve, its lever to the left. Nothing but the standard library, so that anyone can draw it anew.

usage: draw_example_photo.py FILE
"""
import struct
import sys
import zlib

WIDTH, HEIGHT = 360, 220
GROUND, PIPE, BODY, LEVER, LABEL = 232, 150, 96, 30, 250


def shade(x, y):
    """Grey of a pixel."""
    from_middle = ((x - 180) ** 2 + (y - 120) ** 2) ** 0.5
    if 60 <= x <= 185 and abs(y - 120 + (x - 180) * 0.12) < 9 + (185 - x) * 0.03:
        return LEVER
    if from_middle < 20:
        return LEVER + 30
    if from_middle < 46:
        return BODY + int(from_middle / 3)
    if (abs(y - 120) < 24 and (x < 150 or x > 210)) or (abs(x - 180) < 24 and y > 150):
        across = abs(y - 120) if abs(y - 120) < 24 else abs(x - 180)
        return PIPE + 70 - across * 3
    if 22 < x < 108 and 40 < y < 74:
        return LABEL if 26 < x < 104 and 44 < y < 70 else LEVER
    return GROUND - (x * 7 + y * 13) % 9


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


rows = b"".join(b"\0" + bytes(shade(x, y) for x in range(WIDTH)) for y in range(HEIGHT))
with open(sys.argv[1], "wb") as file:
    file.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", WIDTH, HEIGHT, 8, 0, 0, 0, 0))
               + chunk(b"IDAT", zlib.compress(rows, 9)) + chunk(b"IEND", b""))
