//! What happens when the firmware cannot go on: it says where in the log, and
//! starts again. A cook has a working scale again at once; what was not
//! acknowledged is lost, and the new epoch says so.

use core::panic::PanicInfo;
use cortex_m::peripheral::SCB;
use cortex_m_rt::{ExceptionFrame, exception};

#[panic_handler]
fn panic(info: &PanicInfo) -> ! {
    match info.location() {
        Some(place) => defmt::error!("stopped at {=str}:{=u32}", place.file(), place.line()),
        None => defmt::error!("stopped"),
    }
    SCB::sys_reset()
}

// SAFETY: the handler only reads the frame that the core has stacked, logs and
// resets; it returns to nothing that could be half done.
#[exception]
unsafe fn HardFault(frame: &ExceptionFrame) -> ! {
    defmt::error!("hard fault at {=u32:#x}", frame.pc());
    SCB::sys_reset()
}
