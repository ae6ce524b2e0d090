import type {DiagnosisCause} from '../../planning/diagnosis.ts';
import type {Fact} from '../facts.ts';
import type {Compared} from '../set-change-compared.ts';
import type {Job} from '../sheet.ts';

/** Every sentence of the set-up sheet. */
export const words = {
	title: (name: string) => `Set-up sheet: ${name}`,
	subtitle: (date: string) => `Set-up sheet, ${date}`,
	practice: 'Practice guitar: simulated, no real instrument.',
	jobs: {
		whole: 'whole set-up',
		restring: 'new strings of the same kind',
		change: 'other gauges or another tuning',
		intonation: 'intonation only',
	} satisfies Record<Job, string>,
	sections: {
		instrument: 'Instrument',
		strings: 'Strings',
		plate: 'Bridge',
		work: 'What was done',
		proof: 'Arm',
		watch: 'What to watch',
		notes: 'Notes',
		compared: 'Foreseen, and come true',
		cautions: 'Please mind',
	},
	instrument: {
		job: 'job',
		date: 'date',
		scale: 'scale length',
		reference: 'A',
		action: 'action, 12th fret',
		total: 'pull at pitch',
		springs: 'springs',
	},
	before: (value: string) => `${value} before`,
	columns: {
		string: 'string',
		gauge: 'gauge',
		first: 'came in',
		now: 'now',
		firstIntonation: '12th before',
		nowIntonation: '12th now',
		saddle: 'saddle',
		tension: 'pull',
	},
	columnsNote: 'Cents against the target; 12th: fretted against harmonic. ~ believed, not read since the last touch.',
	plate: {
		first: 'tail came in',
		now: 'tail now',
		wish: 'wanted',
		claw: 'claw',
		believed: (tail: string) => `${tail} (believed)`,
	},
	compared: {
		labels: {
			'total-tension': 'pull in all',
			'claw-turns': 'claw turns',
			'tail-at-pitch': 'tail by strings alone',
			springs: 'springs',
		} satisfies Record<Compared['what'] | 'springs', string>,
		value: (foreseen: string, came: string, verdict: string) => `foreseen ${foreseen}; came ${came} (${verdict})`,
		agrees: 'as foreseen',
		differs: 'otherwise',
		springs: ['spring', 'springs'],
	},
	work: {
		pegTurns: ['peg turn', 'peg turns'],
		fineTunerTurns: ['fine tuner turn', 'fine tuner turns'],
		saddleMoves: ['saddle moved', 'saddles moved'],
		clawSteps: ['claw step', 'claw steps'],
		stringsFitted: ['string fitted', 'strings fitted'],
		plucks: ['reading', 'readings'],
	},
	motions: {
		dive: 'dive and back',
		'pull-up': 'pull up and back',
		bend: 'bend and back',
	} satisfies Record<Extract<Fact, {type: 'ArmMoved'}>['motion'], string>,
	causes: {
		sound: () => 'all strings came home',
		plate: () =>
			'off in proportion to the bridge, now one way, now the other: the plate does not come home; look at knife edges, posts, springs that rub',
		claw: () =>
			'off in proportion to the bridge, and it stays: spring or claw moved; look at the claw screws and the spring hooks',
		'all-alike': () =>
			'all off alike, which no bridge does: the tuner’s reference changed; check it against a known tone',
		'string-slips': (string: string) =>
			`only string ${string} is off: it slips; look at its clamp, ball end, windings, saddle screw`,
		'saddle-creeps': (string: string) =>
			`string ${string} falls from pluck to pluck: its saddle creeps; slacken it, then snug the hold-down screw`,
		stretching: (string: string) =>
			`${string === '' ? 'the new strings are' : `string ${string} is new and`} still stretching in: pull gently, retune, read again`,
	} satisfies Record<DiagnosisCause, (string: string) => string>,
	plateOrClaw:
		'off in proportion to the bridge: the plate does not come home, or spring or claw moved; move the arm the other way and read again to tell which',
	slipsOrCreeps: (string: string) =>
		`only string ${string} is off: it slips, or its saddle creeps; pluck it twice more: if it falls on, the saddle; else look at its clamp, ball end, windings`,
	unclear: 'off, and the readings do not tell why: read again',
	perhaps: (cause: string, share: string) => `${cause} (${share})`,
	causeNames: {
		sound: 'nothing wrong',
		plate: 'plate not home',
		claw: 'spring or claw moved',
		'all-alike': 'tuner’s reference',
		'string-slips': 'a string slips',
		'saddle-creeps': 'a saddle creeps',
		stretching: 'strings stretching in',
	} satisfies Record<DiagnosisCause, string>,
	likeliest: (list: string) => `likeliest: ${list}`,
	worst: (cents: string) => `worst ${cents} cents`,
	watch: {
		newStrings: 'New strings settle: check the tuning after a day, with the fine tuners.',
		strength: (string: string, share: string) =>
			`String ${string} stands at ${share} of its breaking load when sound; replace it early, do not tune it up.`,
		intonation: (string: string, cents: string) => `String ${string}: fretted 12th is ${cents} of the harmonic.`,
		pitch: (string: string, cents: string) => `String ${string} stands ${cents}.`,
		plate: (tail: string, wish: string) => `Plate: tail ${tail}, wanted ${wish}.`,
		nothing: 'Nothing out of the ordinary.',
	},
	pictures: {
		open: 'Open strings',
		intonation: 'Fretted 12th against harmonic',
		centsAxis: 'cents, sharp to the right; shaded: within tolerance',
		saddles: 'Saddles',
		saddlesAxis: (unit: string) => `${unit} behind the scale line; to the right = back, longer`,
		saddleMovesAxis: (unit: string) => `${unit} from where it stood; to the right = back, longer`,
		tensions: 'Pull of each string at pitch',
		tensionsAxis: (unit: string) => unit,
		tensionsBeforeAxis: (unit: string) => `${unit}; dashed outline: strings or tuning before`,
		before: 'as it came in',
		now: 'now',
	},
	none: '—',
	cautions: [
		'Eye protection when strings are tightened, loosened or cut; face out of their line; ends are sharp.',
		'Strings slack before a saddle screw, a spring or the bridge itself is loosened; springs jump.',
		'Screws snug, not hard. Never turn the pivot posts at full tension.',
		'The maker’s own instructions come first, then a qualified technician; this is advice and replaces neither.',
	],
} as const;
