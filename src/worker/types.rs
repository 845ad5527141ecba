//! The types that TypeScript sees.

use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** A job, format 1. Lengths in mm, angles in degrees; every key but `format` may be left out. */
export interface Job {
  format: 1;
  name?: string;
  notes?: string;
  frame?: {
    chainstay_length_mm?: number; bb_drop_mm?: number; seat_angle_deg?: number; seat_tube_setback_mm?: number;
    seat_tube_od_mm?: number; shell_od_mm?: number; shell_width_mm?: number; axle_spacing_mm?: number;
    axle_offset_mm?: number;
  };
  wheel?: { bead_seat_mm?: number; tyre_width_mm?: number; tyre_height_mm?: number };
  chainstays?: { right?: Side; left?: Side };
  seatstays?: { front_station_mm?: number; right?: Side; left?: Side };
  fixture?: {
    block_width_mm?: number; clamp_height_mm?: number; touch_u_mm?: number; touch_w_mm?: number;
    posts_u_mm?: number[]; slide_min_mm?: number; slide_max_mm?: number;
    axle_height_min_mm?: number; axle_height_max_mm?: number; touch_from?: "front" | "rear";
  };
  edge_finder_mm?: number;
  surroundings?: Surroundings | null;
  dropouts?: { right: Dropout; left?: Partial<Dropout> | null } | null;
}
/** A dropout that figures of the stays follow from; what is entered in a stay itself wins. */
export type Dropout =
  | { kind: "plate"; thickness_mm: number; recess_mm?: number; turn_deg?: number; tabs_deg?: number | null; chainstay: PlateTab; seatstay: PlateTab }
  | { kind: "round"; od_mm: number; width_mm: number; recess_mm?: number; distance_mm?: number; turn_deg?: number; stay_offset_mm?: number }
  | { kind: "socket"; thickness_mm: number; recess_mm?: number; turn_deg?: number; tabs_deg?: number | null; chainstay: Plug; seatstay: Plug };
export interface PlateTab {
  distance_mm: number; depth_mm: number; overhang_mm: number;
  off_axle_mm?: number; stay_offset_mm?: number; clearance_mm?: number; plate_splay_deg?: number;
}
export interface Plug {
  distance_mm: number; plug_od_mm: number; off_axle_mm?: number; stay_offset_mm?: number; splay_deg?: number | null;
}
export interface Side {
  front?: { half_spacing_mm?: number; rise_mm?: number; end?: End };
  rear?: { half_spacing_mm?: number; rise_mm?: number; reach_mm?: number; end?: End };
  tube?: {
    od_front_mm?: number; od_rear_mm?: number; taper_start_mm?: number; taper_end_mm?: number;
    wall_mm?: number; length_mm?: number; front_trim_mm?: number;
    bends?: { before_mm?: number; rotation_deg?: number; angle_deg?: number; radius_mm?: number }[];
    roll_deg?: number; find?: "nothing" | "trim" | "roll" | "both";
    butts?: { at_mm?: number; wall_mm?: number }[];
    ovals?: {
      from_mm?: number; to_mm?: number; blend_mm?: number; width_mm?: number; height_mm?: number; roll_deg?: number;
    }[];
  };
}
/** What turns beside the stays; what is left out is not looked at. The README lists the keys of each part. */
export interface Surroundings {
  limits?: Record<string, number>; measured_width_mm?: number | null;
  chainrings?: { teeth?: number; chainline_mm?: number; thickness_mm?: number }[];
  crank?: Record<string, number> | null; sprocket?: Record<string, number> | null;
  rotor?: Record<string, number> | null; posts?: { column_mm?: number } | null;
}
export type End =
  | { kind?: "cope"; onto?: "shell" | "seat_tube"; cutter_mm?: number | null }
  | { kind: "boss"; boss_mm?: number }
  | { kind: "slot"; plate_mm?: number; depth_mm?: number; overhang_mm?: number; plate_splay_deg?: number; clearance_mm?: number }
  | { kind: "square" };

/** A plan, format 1. A figure that does not exist is `null`. */
export interface Plan {
  format: 1;
  pairs: { chainstays: Pair; seatstays: Pair };
  dropouts?: {
    right: DropoutPlan; left: DropoutPlan; spacing_over_hub_mm: number; spacer_right_mm: number; spacer_left_mm: number;
  };
  warnings: { code: string; level: "note" | "check" | "stop"; where: string; message: string }[];
}
export interface DropoutPlan {
  hub_face_mm: number; inner_face_mm: number; middle_mm: number; chainstay: TabPlan; seatstay: TabPlan;
  stays_deg: number; needed_at_axle_deg: number; tabs_difference_deg: number | null;
  inside_by_mm: number | null; round_apart_mm: number | null;
}
export interface TabPlan {
  half_spacing_mm: number; reach_mm: number; rise_mm: number;
  tab_off_deg: number | null; plug_clearance_mm: number | null; plug_off_deg: number | null;
}
/** Where an end lands on what it mates to. */
export interface Landing {
  along_from_mm: number; along_to_mm: number; along_middle_mm: number;
  round_from_deg: number; round_to_deg: number; round_middle_deg: number;
  axis_along_mm: number | null; axis_round_deg: number | null;
  vent_along_mm: number | null; vent_round_deg: number | null; vent_max_mm: number | null;
}
export interface Pair {
  slide_mm: number; axle_height_mm: number; one_plane: boolean;
  front_saw_depth_mm: number | null; rear_saw_depth_mm: number | null; room_between_mm: number;
  posts: {
    u_mm: number; right_mm: number | null; left_mm: number | null;
    inside_mm: number | null; outside_mm: number | null;
    right_straight_mm?: [number, number]; left_straight_mm?: [number, number];
  }[];
  right: Stay; left: Stay;
}
export interface Stay {
  length_mm: number; splay_deg: number; front: Cut; rear: Cut; tip_to_tip_mm: number | null;
  slide_mm: number; axle_height_mm: number;
  raw?: {
    front_mark_mm: number; rear_mark_mm: number; long_enough: boolean;
    front_butt_mm: number | null; rear_butt_mm: number | null;
  };
  bent?: {
    front_trim_mm: number; roll_deg: number; spare_mm: number | null; spare_within_mm: number | null; search_complete: boolean | null;
    chord_mm: number;
    front_direction: [number, number, number]; rear_direction: [number, number, number];
    bends: {
      from_mm: number; apex_mm: number; to_mm: number; along_mm: number; from_plane_mm: number; from_centre_mm: number;
    }[];
  };
}
export type Cut = RoundCut | SlotCut | SquareCut;
export interface RoundCut {
  kind: "cope" | "boss"; contact: "full" | "partial" | "touch" | "none" | "parallel";
  angle_deg: number; miter_deg: number; offset_mm: number; axis_station_mm: number | null;
  long_point_mm: number | null; short_point_mm: number | null;
  misses: { from_deg: number; to_deg: number }[];
  outer: ProfilePoint[]; bore: ProfilePoint[];
  member_mm: number; cutter_mm: number; gap_mm: number | null; push_mm: number | null; saw_depth_mm: number | null; landing?: Landing[];
  tilt_deg: number; swivel_deg: number; on_side: boolean; end_up: "front" | "rear" | "level" | "either";
  dro_along_mm: number; dro_across_mm: number; along_spindle_mm: number; across_spindle_mm: number;
}
export interface ProfilePoint { phi_deg: number; s_mm: number }
export interface SlotCut {
  kind: "slot"; angle_deg: number; mouth_s_mm: number; root_s_mm: number; plate_mm: number; width_mm: number; from_centre_mm: number;
  dro_along_mm: number; along_spindle_mm: number; on_side: true; swivel_deg: number; from_datum_mm: number;
  faces: { side: "inboard" | "outboard"; mouth_phi_deg: [number, number] | null; root_phi_deg: [number, number] | null }[];
}
export interface SquareCut { kind: "square"; angle_deg: number; long_point_mm: number; short_point_mm: number }
/** What comes back in place of a plan when the job has faults. */
export interface Faults { errors: { field: string; value: unknown; message: string }[] }

/** Plans a job: the JSON text of a {@link Job} in, the JSON text of a {@link Plan} or of {@link Faults} out. */
export function plan(job: string): string;

/** What is asked about a job's errors and its finished stays. Names are those of the answer; lengths in mm, angles in degrees. */
export interface Question {
  job: Job;
  /** Largest error of a setting, by its name. */ spreads?: Record<string, number>;
  /** Limit of a result, by its name. */ limits?: Record<string, number>;
  /** By how much a setting is known to be off, by its name. */ learned?: Record<string, number>;
  /** What was read, by the figure's name. */ readings?: Record<string, number>;
  runs?: number; seed?: number;
  /** A figure of the job, `frame.bb_drop_mm`. */ touched?: string;
}
export interface Known { value: number; standard: number | null }
export interface Answer {
  settings: { id: string; name: string; unit: "mm" | "°"; off: number; half_width: number; source: string }[];
  results: {
    id: string; name: string; limit_kind: "within" | "at_most" | "at_least"; limit: number; source: string;
    value: number | null; standard: number | null; worst: number | null;
    shares: {
      setting: string; per_unit: number; standard: number; worst: number; part: number;
      hold: { by_squares: number; by_worst: number; alone: number } | null;
    }[];
    drawn: { low: number; high: number; kept: number } | null;
  }[];
  figures: { id: string; name: string; nominal: number; unit: "mm" | "°"; standard: number; with: string }[];
  found: null | {
    stays: (Known & { id: string; unit: "mm" | "°" })[];
    results: {
      id: string; value: number | null; standard: number | null;
      verdict: "within" | "marginal" | "out" | "open" | "none"; probability: number | null; after: number | null;
      /** Figures which, read besides, settle a result that is open. */ asks: string[];
    }[];
    agreement: {
      contradicts: boolean; probability: number; freedom: number; worst: { figure: string; strays: number } | null;
    };
    trims: { pair: string; hand: string; end: string; amount: Known; mends: string; needed: boolean }[];
    moved: { pair: string; to_right: Known; needed: boolean } | null;
    habits: { id: string; name: string; unit: "mm" | "°"; off: Known; clear: boolean }[];
    refused: { id: string; why: string }[];
  };
  moves: { id: string; value: number; per_unit: number }[];
  runs: number; seed: number;
}

/** Answers a {@link Question} with an {@link Answer} or {@link Faults}, all as JSON texts. */
export function check(question: string): string;

/** The job that a person starts with on the page, as a JSON text. */
export function startingJob(): string;

/** A job's rear triangle from the drive side, as the text of an `svg` element so wide and at most so high, in px. Empty for a job with faults. */
export function sideView(job: string, width: number, mostHigh: number): string;

/** Published worked examples, done again by the same engine. */
export function worked(): string;
"#;
