//! x
#![no_std]
#![no_main]
use defmt_rtt as _;
use rp2040_hal as hal;

#[unsafe(link_section = ".boot2")]
#[used]
static BOOT2_FIRMWARE: [u8; 256] = rp2040_boot2::BOOT_LOADER_GENERIC_03H;

#[hal::entry]
fn main() -> ! {
    let mut id = [0u8; 8];
    unsafe { rp2040_flash::flash::flash_unique_id(&mut id, true) };
    defmt::info!("{}", id);
    loop {}
}
#[panic_handler]
fn panic(_: &core::panic::PanicInfo) -> ! { loop {} }
