"""Code 128 decoded on its own: the widths of ISO/IEC 15417 table 1 (from memory), nothing of the program's.

That the table is right shows where other programs read what was drawn: tests/labels/test_read_back.py.
"""

TABLE = """
    212222 222122 222221 121223 121322 131222 122213 122312 132212 221213 221312 231212 112232
    122132 122231 113222 123122 123221 223211 221132 221231 213212 223112 312131 311222 321122
    321221 312212 322112 322211 212123 212321 232121 111323 131123 131321 112313 132113 132311
    211313 231113 231311 112133 112331 132131 113123 113321 133121 313121 211331 231131 213113
    213311 213131 311123 311321 331121 312113 312311 332111 314111 221411 431111 111224 111422
    121124 121421 141122 141221 112214 112412 122114 122411 142112 142211 241211 221114 413111
    241112 134111 111242 121142 121241 114212 124112 124211 411212 421112 421211 212141 214121
    412121 111143 111341 131141 114113 114311 411113 411311 113141 114131 311141 411131 211412
    211214 211232
"""
WIDTHS = TABLE.split()
STOP = "2331112"
START_A, START_C = 103, 105
TO_C, TO_B, TO_A = 99, 100, 101


def values(runs):
    """Values of all symbol characters before the stop, the check value last."""
    text = "".join(map(str, runs))
    assert text.endswith(STOP)
    text = text.removesuffix(STOP)
    assert len(text) % 6 == 0
    return [WIDTHS.index(text[at : at + 6]) for at in range(0, len(text), 6)]


def decode(runs):
    """The text of a symbol; its check value must be right."""
    start, *data, check = values(runs)
    assert START_A <= start <= START_C
    total = start
    for position, value in enumerate(data, 1):
        total += position * value
    assert total % 103 == check
    code_set = "ABC"[start - START_A]
    text = ""
    for value in data:
        if code_set == "C" and value < 100:
            text += f"{value:02d}"
        elif value == TO_C:
            code_set = "C"
        elif value == TO_B and code_set != "B":
            code_set = "B"
        elif value == TO_A and code_set != "A":
            code_set = "A"
        else:
            assert value < 96, f"function character {value}"
            text += chr(value + 32 if value < 64 or code_set == "B" else value - 64)
    return text
