"""What becomes of a code when scanner and computer disagree about the keyboard.

A scanner presses keys; which letter a key gives is the computer's to say. Rows are written down from common
practice, no source: number row, upper, home and lower row, first without and then with Shift.
"""

_US = "1234567890-=qwertyuiop[]asdfghjkl;'zxcvbnm,./" + '!@#$%^&*()_+QWERTYUIOP{}ASDFGHJKL:"ZXCVBNM<>?'
_QWERTZ = (
    "1234567890ß\N{ACUTE ACCENT}qwertzuiopü+asdfghjklöäyxcvbnm,.-"
    '!"§$%&/()=?`QWERTZUIOPÜ*ASDFGHJKLÖÄYXCVBNM;:_'
)
_AZERTY = "&é\"'(-è_çà)=azertyuiop^$qsdfghjklmùwxcvbn,;:!" + "1234567890°+AZERTYUIOP¨£QSDFGHJKLM%WXCVBN?./§"

TURNED = {
    "QWERTZ, but the scanner is set for QWERTY": str.maketrans(_US, _QWERTZ),
    "QWERTY, but the scanner is set for QWERTZ": str.maketrans(_QWERTZ, _US),
    "AZERTY, but the scanner is set for QWERTY": str.maketrans(_US, _AZERTY),
    "QWERTY, but the scanner is set for AZERTY": str.maketrans(_AZERTY, _US),
}
"""How the computer's keyboard and the scanner's differ, and what that makes of each character."""


def turned(expected: str, got: str) -> str:
    """Return in words how the keyboards differ if that explains what came, else empty.

    Accent keys give nothing by themselves, so their characters may be missing.

    >>> turned("YZ-1", "ZYß1")
    'QWERTZ, but the scanner is set for QWERTY'
    """
    accents = str.maketrans("", "", "\N{ACUTE ACCENT}`^¨")
    for words, table in TURNED.items():
        typed = expected.translate(table)
        if got != expected and got.translate(accents) == typed.translate(accents):
            return words
    return ""
