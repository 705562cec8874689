"""A bound procedure as text for other owners: plain or Markdown, in the reader's units and words."""

from twomarks.procedures.text_out.contents import contents, needed
from twomarks.procedures.text_out.figures import UsedFigure, used_figures
from twomarks.procedures.text_out.forms import FORMS, as_text

__all__ = ["FORMS", "UsedFigure", "as_text", "contents", "needed", "used_figures"]
