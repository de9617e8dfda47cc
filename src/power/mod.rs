//! Conductors, cords, supplies and motors.
