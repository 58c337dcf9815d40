//! The measures of a page: margins, and the unit in which all else is counted. In points.

use crate::{Paper, Print, Style};

/// The cut of a page.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cut {
    pub(crate) paper: Paper,
    pub(crate) height: f64,
    pub(crate) left: f64,
    pub(crate) right: f64,
    pub(crate) top: f64,
    pub(crate) bottom: f64,
    /// One in usual print, two in large.
    pub(crate) unit: f64,
    /// The same for titles, which are large already.
    pub(crate) title_unit: f64,
}

impl Cut {
    pub(crate) fn of(style: &Style) -> Self {
        let (width, height) = style.paper.size_pt();
        // 22 mm and 15 mm
        let (side, unit, title_unit) = match style.print {
            Print::Usual => (62.0, 1.0, 1.0),
            Print::Large => (42.0, 2.0, 1.5),
        };
        Self {
            paper: style.paper,
            height,
            left: side,
            right: width - side,
            top: 54.0,
            bottom: height - 40.0 - 24.0 * unit,
            unit,
            title_unit,
        }
    }

    /// The width between the margins.
    pub(crate) fn measure(&self) -> f64 {
        self.right - self.left
    }

    /// Where the page number stands.
    pub(crate) fn foot(&self) -> f64 {
        self.height - 40.0
    }
}
