/**
 * The practice guitar: a simulated instrument with hidden truth. It stands in
 * for a real one in practice mode and in every benchmark, so it must know more
 * than the tool believes: exact plane geometry, springs with initial tension,
 * friction with memory at pivot and nut, strings that stretch in, imperfect
 * tuner and hand. Temperature is left out, and so is everything that needs a
 * clock: the guitar changes by deeds only.
 *
 * A guitar is a plain value (it survives JSON); acting on it gives a new one.
 *
 * Plane: origin at the pivot, x away from the neck, y up from the body.
 * `angleRad` > 0 is arm up: saddles move back, strings tighten, tail edge
 * sinks. Strings are counted from 0, thinnest first. Cents positive = sharp,
 * turns positive = tighten, saddle travel positive = back (longer).
 */
export interface Guitar {
	readonly spec: GuitarSpec;
	readonly body: Body;
	readonly strings: readonly GuitarString[];
	readonly springs: readonly Spring[];
	/** Turns since the guitar came in; a difference between the two twists the plate a little. */
	readonly claw: {readonly trebleTurns: number; readonly bassTurns: number};
	readonly nut: 'open' | 'locked';
	/** With a support in, the bridge cannot move. */
	readonly supported: boolean;
	readonly angleRad: number;
	readonly hands: Hands;
}

/** What is known of the guitar from outside. */
export interface GuitarSpec {
	/** Thinnest first, 1 to 8. */
	readonly strings: readonly StringSpec[];
	readonly scaleLengthM: number;
	/** Springs fitted, 1 to 6. */
	readonly springs: number;
	/** Advance of a claw screw per turn. */
	readonly clawScrewPitchM: number;
	/** Pivot to tail edge, where plate height is measured. */
	readonly tailArmM: number;
	/** String height over the 12th fret. */
	readonly actionM: number;
	/** String height over the fret plane at the nut. */
	readonly nutHeightM: number;
	/** Tail height that the owner wants at pitch, positive = tail high; 0 when absent. */
	readonly wishTailM?: number;
}

export interface StringSpec {
	readonly targetHz: number;
	/** Outer diameter. */
	readonly gaugeM: number;
	readonly wound: boolean;
	/** Nominal core of a wound string. */
	readonly coreM?: number;
}

/** Hidden build of the guitar without strings and springs. */
export interface Body {
	/** Where the scale line (saddle position 0) lies behind the pivot, plate level. */
	readonly scaleLineM: number;
	/** Spring hooks on the block, plate level: behind and above the pivot (the second is negative). */
	readonly hookXM: number;
	readonly hookYM: number;
	/** Claw hooks at 0 turns. */
	readonly clawXM: number;
	readonly clawYM: number;
	/** Turns that the claw screws allow, [out, in]. */
	readonly clawRangeTurns: readonly [number, number];
	/** Stops of the plate: [block at the cavity wall (dive), tail in the recess]. */
	readonly stopsRad: readonly [number, number];
	/** The bridge stays where it is while the torque out of balance is at most this. */
	readonly pivotFrictionNm: number;
	/** Extra angle at 1 m to the treble side per turn of difference between the claw screws. */
	readonly twistRadPerMPerTurn: number;
	/** How firmly string ends are held: 0 hinged, 1 one end clamped, 2 both (stiffness term). */
	readonly endStiffness: number;
	/** Finger behind the fret, and how deep it presses the string below the fret's crown. */
	readonly fingerBehindM: number;
	readonly fingerDepthM: number;
	/** A claw whose screws have lost their thread backs out this much at each move of the arm. */
	readonly clawSlipTurns: number;
	/** Multiply nut friction and give of every string fitted later. */
	readonly frictionScale: number;
	readonly stretchScale: number;
}

/** Imperfection of whoever works and of what they measure with. */
export interface Hands {
	readonly tunerNoiseCents: number;
	/** The tuner's reference is off by this: every reading shows that much too flat. */
	readonly tunerReferenceCents: number;
	readonly handErrorCents: number;
	readonly saddleSdM: number;
	readonly plateSdM: number;
	readonly clawSdTurns: number;
	/** Scales the unevenness of the fretting finger; 1 is a careful hand. */
	readonly fingerUnevenness: number;
}

export interface GuitarString {
	readonly wire: Wire;
	readonly seat: Seat;
	/** False when no string is fitted here. */
	readonly on: boolean;
	/** Unstretched wire between saddle clamp and nut. */
	readonly frontM: number;
	/** Unstretched wire between nut and peg. */
	readonly behindM: number;
	/** Wire that the nut clamp took out of the front when it was tightened. */
	readonly clampedM: number;
	/** Path that the fine tuner adds at the saddle, 0 to the seat's travel. */
	readonly fineTunerM: number;
	/** True saddle position behind the scale line. */
	readonly saddleM: number;
	/** Length still to be given out by stretching in: soon (windings, ends) and late (the wire itself). */
	readonly give: {readonly soonM: number; readonly lateM: number};
	/** Hidden faults: how far the saddle will still creep forward, how much wire slips at each hard pull. */
	readonly creepM: number;
	readonly slipM: number;
}

/** The string itself. */
export interface Wire {
	/** Young's modulus times loaded section, newton. */
	readonly stretchStiffnessN: number;
	/** Young's modulus times second moment of the core, N m². */
	readonly bendStiffnessNM2: number;
	/** Per unstretched metre. */
	readonly massKgPerM: number;
	readonly breakN: number;
	/** Coefficient of friction in the nut slot. */
	readonly nutFriction: number;
}

/** Where the string sits: stays when the string is changed. */
export interface Seat {
	/** Towards the treble side from the middle. */
	readonly acrossM: number;
	/** Contact above the pivot, plate level. */
	readonly heightM: number;
	/** Nut contact in the plane. */
	readonly nutXM: number;
	readonly nutYM: number;
	/** Wrap of the string round the nut while open. */
	readonly nutWrapRad: number;
	/** Nut to peg. */
	readonly behindPathM: number;
	readonly fineTunerTravelM: number;
	/** [forward end, back end] behind the scale line. */
	readonly saddleRangeM: readonly [number, number];
	readonly actionM: number;
	readonly nutHeightM: number;
	/** Pitch change when the nut clamp is tightened. */
	readonly clampShiftCents: number;
}

/** Extension spring: F = initial + rate × (length − closed) once it is open. */
export interface Spring {
	readonly rateNPerM: number;
	readonly initialN: number;
	readonly closedM: number;
	/** Towards the treble side from the middle. */
	readonly acrossM: number;
}

/**
 * The string at this index.
 * @throws {RangeError} If there is none.
 */
export function stringAt(guitar: Guitar, string: number): GuitarString {
	const found = guitar.strings[string];
	if (!found) throw new RangeError(`stringAt: expected string to be 0 to ${guitar.strings.length - 1}, got ${string}`);
	return found;
}

/** The same guitar with one string different. */
export function withString(guitar: Guitar, string: number, change: Partial<GuitarString>): Guitar {
	const changed = {...stringAt(guitar, string), ...change};
	return {...guitar, strings: guitar.strings.map((each, index) => (index === string ? changed : each))};
}
