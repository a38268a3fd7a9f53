"""What can go wrong with labels, each in words for a person."""


class LabelError(ValueError):
    """A label, or a page of them, that cannot be made or printed; the words say why and what to do."""


class TextError(LabelError):
    """A text that no symbol can carry."""


class DescriptionError(LabelError):
    """A file about stock or a layout that is wrong, or is not there.

    Args:
        name: The file's name.
        line: Its line, 0 if that is not known.
        sentence: What was expected and what came.

    """

    def __init__(self, name: str, line: int, sentence: str) -> None:
        super().__init__(f"{name}, line {line}: {sentence}" if line else f"{name}: {sentence}")
        self.name = name
        self.line = line


class DoesNotFitError(LabelError):
    """A label that its stock has no room for.

    Args:
        sentence: What does not fit where.
        width: Width of a label on which it would fit, mm; None where the width is enough.
        height: Likewise its height.

    """

    def __init__(self, sentence: str, *, width: float | None = None, height: float | None = None) -> None:
        super().__init__(sentence)
        self.width = width
        self.height = height


class PositionError(LabelError):
    """A place on the sheet, a label of the job or a number of copies that there is not."""


class MeasureError(LabelError):
    """What was measured on a test page cannot be."""


class WritingError(LabelError):
    """A file that could not be written; nothing of it is left behind."""


class StoppedError(LabelError):
    """Somebody stopped the making of labels; nothing was written."""


class PrintingError(LabelError):
    """The operating system's queue did not take the file, which lies where it was."""
