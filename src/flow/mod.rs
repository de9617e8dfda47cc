//! Tubes, restrictions, choking, series and parallel paths.
