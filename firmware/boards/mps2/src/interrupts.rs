//! The vectors of the interrupts that are unmasked at the interrupt
//! controller, those of the two serial ports.
//!
//! The core takes none of them ([`crate::uart`]); without this the start-up
//! code would hold a place for each of the 240 that an Armv7-M core can have.

unsafe extern "C" {
    // Of cortex-m-rt: stops the processor.
    fn DefaultHandler();
}

// SAFETY: the section is where the linker script of cortex-m-rt puts the table,
// and its name is the one that it asks for.
#[unsafe(link_section = ".vector_table.interrupts")]
#[unsafe(no_mangle)]
static __INTERRUPTS: [unsafe extern "C" fn(); 4] = [DefaultHandler; 4];
