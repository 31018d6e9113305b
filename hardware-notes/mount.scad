// Mount of a single-point bar cell: foot, spider under the pan, and two spacers.
//
// Measure your own cell and set the figures below; lengths are in millimetres. The
// values here are a common bar of 80 x 12.7 x 12.7 (from memory: bars of 1 to 10 kg are
// often of this size, and makers differ in thread and spacing).
//
//   openscad -D 'part="foot"'   -o foot.stl   mount.scad
//   openscad -D 'part="spider"' -o spider.stl mount.scad
//   openscad -D 'part="spacer"' -o spacer.stl mount.scad      (print two)
//
// Print foot and spider in PETG or ASA, four walls, half filled or more. Printed plastic
// touches no food: the pan that lies on the spider is stainless steel.

/* [What to make] */
part = "all"; // [all, foot, spider, spacer]

/* [The cell] */
cell_length = 80;
cell_width = 12.7;
cell_height = 12.7;
// From each end to the nearer hole, and from that to the next.
end_to_hole = 5;
hole_spacing = 15;
// Clearance holes for the screws of the fixed end (foot) and of the free end (spider).
fixed_screw = 5.5; // M5
free_screw = 4.5; // M4

/* [The scale] */
// The pan's outline.
pan_length = 180;
pan_width = 140;

/* [Thickness] */
plate = 6;
spacer = 3;
// Height of the spider's arms: 10 N on a corner bends one by 0.3 mm (a bar of 11 x 16 mm,
// 85 mm long, E = 2 GPa for printed PETG, from memory). Cut it of 5 mm aluminium for more
// than 2 kg.
arm_height = 16;
arm_width = 8;
// Screws that stand up out of the foot as stops, into nuts in its underside.
stop_screw = 5.2; // M5
stop_nut = 9.4; // its nut from corner to corner, with play
stop_nut_height = 4;

// Where a screw's axis lies along the cell, from its fixed end.
fixed_holes = [end_to_hole, end_to_hole + hole_spacing];
free_holes = [cell_length - end_to_hole - hole_spacing, cell_length - end_to_hole];
// The middle of the cell is the middle of the pan: a single-point cell is trimmed there.
middle = cell_length / 2;
hub = (free_holes[0] + free_holes[1]) / 2 - middle;
// From the foot's upper face to the spider's lower one.
clearance = 2 * spacer + cell_height;

assert(free_holes[0] > fixed_holes[1], "the cell is too short for its holes");
assert(pan_length >= cell_length + 60, "the stops would stand beneath the cell: pan_length");
assert(pan_width >= 4 * cell_width, "the pan is too narrow: pan_width");

module slab(length, width, height) {
    linear_extrude(height)
        offset(r = 6) offset(delta = -6)
            square([length, width], center = true);
}

module corners() {
    for (x = [-1, 1], y = [-1, 1])
        translate([x * (pan_length / 2 - 15), y * (pan_width / 2 - 15), 0]) children();
}

// Stands on the bench; the cell's fixed end is screwed on from below.
module foot() {
    difference() {
        slab(pan_length, pan_width, plate);
        for (x = fixed_holes) translate([x - middle, 0, -0.1]) {
            cylinder(d = fixed_screw, h = plate + 0.2, $fn = 48);
            cylinder(d = 2 * fixed_screw, h = plate / 2, $fn = 48);
        }
        // One stop beneath the cell's free end, one beneath each arm.
        translate([middle - end_to_hole / 2, 0, 0]) stop();
        corners() stop();
        // The arrow points to the free end, where the load pulls down.
        translate([cell_length / 2 + 14, 0, plate - 0.8])
            linear_extrude(1) polygon([[-6, -5], [-6, 5], [6, 0]]);
    }
}

module stop() {
    translate([0, 0, -0.1]) {
        cylinder(d = stop_screw, h = plate + 0.2, $fn = 48);
        cylinder(d = stop_nut, h = stop_nut_height, $fn = 6);
    }
}

// Lies on the cell's free end and carries the pan by its corners.
module spider() {
    difference() {
        union() {
            translate([hub, 0, 0]) slab(hole_spacing + 24, cell_width + 20, arm_height);
            for (x = [-1, 1], y = [-1, 1]) hull() {
                translate([hub, 0, 0]) cylinder(d = arm_width, h = arm_height, $fn = 32);
                translate([x * (pan_length / 2 - 15), y * (pan_width / 2 - 15), 0])
                    cylinder(d = 14, h = arm_height, $fn = 48);
            }
        }
        for (x = free_holes) translate([x - middle, 0, -0.1]) {
            cylinder(d = free_screw, h = arm_height + 0.2, $fn = 48);
            // The heads lie deep, below the pan.
            translate([0, 0, plate]) cylinder(d = 2 * free_screw, h = arm_height, $fn = 48);
        }
    }
}

// Between the cell's end and what it is screwed to, so that its middle is free to bend.
// Better of steel or aluminium: plastic creeps under a screw.
module spacer_plate(diameter) {
    difference() {
        translate([-(hole_spacing + 8) / 2, -cell_width / 2, 0])
            cube([hole_spacing + 8, cell_width, spacer]);
        for (x = [-hole_spacing / 2, hole_spacing / 2])
            translate([x, 0, -0.1]) cylinder(d = diameter, h = spacer + 0.2, $fn = 48);
    }
}

if (part == "foot") foot();
if (part == "spider") spider();
if (part == "spacer") spacer_plate(max(fixed_screw, free_screw));
if (part == "all") {
    foot();
    translate([0, 0, plate + clearance]) spider();
    %translate([-cell_length / 2, -cell_width / 2, plate + spacer])
        cube([cell_length, cell_width, cell_height]);
    translate([(fixed_holes[0] + fixed_holes[1]) / 2 - middle, 0, plate])
        spacer_plate(fixed_screw);
    translate([(free_holes[0] + free_holes[1]) / 2 - middle, 0, plate + spacer + cell_height])
        spacer_plate(free_screw);
}
