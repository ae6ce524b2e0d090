/**
 * Where each unknown stands in the belief's vector for n strings. Chosen so
 * that every entry is of the order of one or less and pitch readings hardly
 * couple the last block:
 *
 * | entries | meaning | unit |
 * |---|---|---|
 * | stretch | stretch of each string with the plate level | millimetres |
 * | stiffness | ln of axial stiffness over nominal, each string | 1 |
 * | mass | ln of mass per length over nominal, each string | 1 |
 * | rate | ln of (K / h²) over nominal: spring stiffness felt at the strings | 1 |
 * | balance | spring pull with the plate level, over that of all strings at pitch, less 1 | 1 |
 * | friction | same unit: what pivot friction holds at the moment | 1 |
 * | arm | ln of h over nominal | 1 |
 * | springArm | ln of the springs' arm over nominal | 1 |
 * | stop | angle of the back stop | radians |
 * | support | angle at which a support holds the plate | radians |
 */
export interface Layout {
	readonly strings: number;
	readonly size: number;
	stretch(index: number): number;
	stiffness(index: number): number;
	mass(index: number): number;
	readonly rate: number;
	readonly balance: number;
	readonly friction: number;
	readonly arm: number;
	readonly springArm: number;
	readonly stop: number;
	readonly support: number;
}

/** The layout for n strings. */
export function layoutOf(n: number): Layout {
	return {
		strings: n,
		size: 3 * n + 7,
		stretch: index => index,
		stiffness: index => n + index,
		mass: index => 2 * n + index,
		rate: 3 * n,
		balance: 3 * n + 1,
		friction: 3 * n + 2,
		arm: 3 * n + 3,
		springArm: 3 * n + 4,
		stop: 3 * n + 5,
		support: 3 * n + 6,
	};
}
