//! Refrigerant property tables and states.
