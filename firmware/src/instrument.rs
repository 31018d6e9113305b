//! All of the instrument behind one state machine.
