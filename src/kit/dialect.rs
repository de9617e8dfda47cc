//! The dialect of RON that files are written in.

use ron::extensions::Extensions;

/// Parts without double brackets, optional values without `Some`.
pub(crate) fn dialect() -> ron::Options {
    ron::Options::default()
        .with_default_extension(Extensions::UNWRAP_VARIANT_NEWTYPES)
        .with_default_extension(Extensions::UNWRAP_NEWTYPES)
        .with_default_extension(Extensions::IMPLICIT_SOME)
}
