"""Draws examples/heronmoor/fill_valve.png, which stands where a real owner would put a photograph: three pipes that meet
at a valve, a plate at each of the two that it can lead to, its lever to the left. Nothing but the standard library, so
that anyone can draw it anew.

usage: draw_example_photo.py FILE
"""
import struct
import sys
import zlib

WIDTH, HEIGHT = 400, 260
GROUND, PIPE, BODY, LEVER, PLATE, INK = 232, 150, 96, 30, 250, 20

# Letters of five by seven dots, a row after the other.
LETTERS = {
    "L": "10000 10000 10000 10000 10000 10000 11111", "i": "00100 00000 01100 00100 00100 00100 01110",
    "n": "00000 00000 10110 11001 10001 10001 10001", "e": "00000 00000 01110 10001 11111 10000 01110",
    "s": "00000 00000 01111 10000 01110 00001 11110", "T": "11111 00100 00100 00100 00100 00100 00100",
    "a": "00000 00000 01110 00001 01111 10001 01111", "k": "10000 10000 10010 10100 11000 10100 10010",
}
DOT = 4
PLATES = [(14, 30, "Lines"), (268, 30, "Tank")]  # left, top, what is written on it


def on_plate(x, y):
    """Grey of a pixel of a plate; None beside all of them."""
    for left, top, word in PLATES:
        width = len(word) * 6 * DOT - DOT + 16
        if not (left <= x < left + width and top <= y < top + 7 * DOT + 16):
            continue
        if not (left + 3 <= x < left + width - 3 and top + 3 <= y < top + 7 * DOT + 13):
            return LEVER
        column, row = (x - left - 8) // DOT, (y - top - 8) // DOT
        if 0 <= row < 7 and 0 <= column < len(word) * 6 and column % 6 < 5:
            return INK if LETTERS[word[column // 6]].split()[row][column % 6] == "1" else PLATE
        return PLATE
    return None


def shade(x, y):
    """Grey of a pixel."""
    plate = on_plate(x, y)
    if plate is not None:
        return plate
    from_middle = ((x - 200) ** 2 + (y - 150) ** 2) ** 0.5
    if 70 <= x <= 205 and abs(y - 150 + (x - 200) * 0.12) < 9 + (205 - x) * 0.03:
        return LEVER
    if from_middle < 20:
        return LEVER + 30
    if from_middle < 46:
        return BODY + int(from_middle / 3)
    if (abs(y - 150) < 24 and (x < 170 or x > 230)) or (abs(x - 200) < 24 and y > 180):
        across = abs(y - 150) if abs(y - 150) < 24 else abs(x - 200)
        return PIPE + 70 - across * 3
    return GROUND - (x * 7 + y * 13) % 9


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


rows = b"".join(b"\0" + bytes(shade(x, y) for x in range(WIDTH)) for y in range(HEIGHT))
with open(sys.argv[1], "wb") as file:
    file.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", WIDTH, HEIGHT, 8, 0, 0, 0, 0))
               + chunk(b"IDAT", zlib.compress(rows, 9)) + chunk(b"IEND", b""))
