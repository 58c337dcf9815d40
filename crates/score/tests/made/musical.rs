//! What of a piece is music: the same before and after marks are written into its source.

use score::{Anchor, Piece};

/// A piece without its marks, what they make of glissandi, and places in the source.
pub(crate) fn musical(mut piece: Piece) -> Piece {
    let nowhere = |anchor: &mut Anchor| (anchor.byte, anchor.element) = (0, 0);
    piece.marks.clear();
    piece.glissandi.clear();
    piece.diagnostics.clear();
    piece
        .notes
        .iter_mut()
        .for_each(|note| nowhere(&mut note.anchor));
    piece
}
