//! The dialect of RON that files are written in, and what they leave out.

use ron::extensions::Extensions;

/// Parts without double brackets, optional values without `Some`.
pub(crate) fn dialect() -> ron::Options {
    ron::Options::default()
        .with_default_extension(Extensions::UNWRAP_VARIANT_NEWTYPES)
        .with_default_extension(Extensions::UNWRAP_NEWTYPES)
        .with_default_extension(Extensions::IMPLICIT_SOME)
}

/// A "no" that need not be written.
pub(crate) fn is_false(flag: &bool) -> bool {
    !flag
}
