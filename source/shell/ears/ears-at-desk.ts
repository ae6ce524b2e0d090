import type {SoundEvent, SoundListener, SoundSource} from '../../listening/sources/sound-source.ts';
import type {DeskReply, OpenDesk} from './desk.ts';
import type {Attention, EarEvent, Ears, OpenEars} from './ears.ts';

/** A view is told this often, s of sound: a recording goes by faster than it was played. */
const viewEveryS = {live: 0.1, recording: 0.5} as const;
/** Live sound that waits longer than this for the desk is let go, s. */
const patienceS = 3;

/**
 * Ears made of a source of sound and a desk to listen at. Live sound goes to
 * the desk as it comes. A recording is handed over block by block, the next
 * when the last was answered, and only while a pitch is wanted: what was
 * played for one question is not spent on another.
 */
export function earsAtDesk({
	openSource,
	openDesk,
	isRecording,
	hasEnd,
	startsOn,
}: {
	readonly openSource: (listener: SoundListener) => SoundSource;
	readonly openDesk: OpenDesk;
	/** It can wait. */
	readonly isRecording: boolean;
	readonly hasEnd: boolean;
	readonly startsOn: boolean;
}): Ears {
	return {
		startsOn,
		hasEnd,
		open: tell => sitDown({openSource, openDesk, isRecording, tell}),
	};
}

function sitDown({
	openSource,
	openDesk,
	isRecording,
	tell,
}: {
	readonly openSource: (listener: SoundListener) => SoundSource;
	readonly openDesk: OpenDesk;
	readonly isRecording: boolean;
	readonly tell: (event: EarEvent) => void;
}): OpenEars {
	let attention: Attention = {believedHz: [], isWanted: false};
	let waiting: Float32Array[] = [];
	let from = '';
	let sampleRateHz = 1;
	/** Samples at the desk, not answered yet. */
	let atDesk: number[] = [];
	let sinceView = Number.POSITIVE_INFINITY;
	let isEnding: 'no' | 'waits' | 'asked' = 'no';
	let isOver = false;

	const over = (event: EarEvent) => {
		if (isOver) return;
		isOver = true;
		source.stop();
		desk.stop();
		tell(event);
	};

	const handOver = () => {
		if (isOver) return;
		const {believedHz} = attention;
		while (waiting.length > 0) {
			if (isRecording && (!attention.isWanted || atDesk.length > 0)) break;
			const samples = waiting.shift()!;
			atDesk.push(samples.length);
			desk.post({kind: 'block', samples, believedHz});
		}

		if (waiting.length > 0) source.hold?.();
		else source.goOn?.();
		const isHeld = isRecording && !attention.isWanted;
		if (waiting.length === 0 && isEnding === 'waits' && atDesk.length === 0 && !isHeld) {
			isEnding = 'asked';
			desk.post({kind: 'end', believedHz});
		}
	};

	const replied = (reply: DeskReply) => {
		if (isOver) return;
		if (reply.kind === 'now') return tell(reply);
		sinceView += atDesk.shift() ?? 0;
		for (const pluck of reply.plucks) {
			tell({kind: 'pluck', pluck});
			if (isOver) return;
		}

		if (reply.plucks.length > 0 || sinceView >= viewEveryS[isRecording ? 'recording' : 'live'] * sampleRateHz) {
			sinceView = 0;
			tell({kind: 'view', view: reply.view});
		}

		if (isEnding === 'asked' && atDesk.length === 0) return over({kind: 'end', from});
		handOver();
	};

	const sounded = (event: SoundEvent) => {
		if (isOver) return;
		switch (event.kind) {
			case 'open':
				({from, sampleRateHz} = event);
				desk.post({kind: 'start', sampleRateHz});
				return tell({kind: 'open', from});
			case 'samples': {
				const late = atDesk.reduce((sum, count) => sum + count, 0);
				if (!isRecording && late > patienceS * sampleRateHz) return desk.post({kind: 'lost'});
				waiting.push(event.samples);
				return handOver();
			}

			case 'lost':
				return desk.post({kind: 'lost'});
			case 'trouble':
				return over(event);
			case 'end':
				isEnding = 'waits';
				return handOver();
		}
	};

	const desk = openDesk(replied);
	const source = openSource(sounded);
	return {
		attend(next) {
			attention = next;
			if (isRecording) handOver();
		},
		now() {
			if (!isOver) desk.post({kind: 'now', believedHz: attention.believedHz});
		},
		stop() {
			isOver = true;
			waiting = [];
			atDesk = [];
			source.stop();
			desk.stop();
		},
	};
}
