//! Volts to temperature and back by the ITS-90 reference functions.
