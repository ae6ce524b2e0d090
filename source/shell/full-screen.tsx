import {render, useApp, useInput, usePaste} from 'ink';
import {useEffect, useReducer, useSyncExternalStore} from 'react';
import type {Look} from '../terminal/look.tsx';
import {earsFollower} from './ears/follow-ears.ts';
import {hear} from './ears/hear.ts';
import {strokesOf} from '../terminal/strokes.ts';
import {onFault, onHangUp, stopGroup} from './life.ts';
import type {Ports} from './ports.ts';
import {isTooSmall, Screen} from './screen.tsx';
import {type Ending, faultEnding, type Left, type Wizard} from './state.ts';
import {leave, paste, press} from './wizard.ts';

const minuteMs = 60_000;
/** DECKPNM, as the VT100 and its followers know it: a program before may have left the keypad in its other mode. */
const keypadSendsDigits = '\u001B>';

/**
 * Runs the wizard on the alternate screen until it is left, by whatever way.
 * When the promise settles, the terminal is as it was before.
 */
export async function runFullScreen(
	first: Wizard,
	{
		ports,
		look,
		stdin,
		stdout,
		onSignal,
	}: {
		readonly ports: Ports;
		readonly look: Look;
		readonly stdin: NodeJS.ReadStream;
		readonly stdout: NodeJS.WriteStream;
		/**
		 * Called once the terminal is as it was, when the program is to end from
		 * outside; must end it before it returns, for others may listen to the
		 * same signal and end it with less ado.
		 */
		readonly onSignal: (left: Left, exitCode: number) => void;
	},
): Promise<Ending> {
	const now = holder(first);
	// Before anything is drawn: a key pressed before that would be echoed into the first frame and shift it.
	stdin.setRawMode(true);
	stdout.write(keypadSendsDigits);
	const instance = render(<App now={now} ports={ports} look={look} stdout={stdout} />, {
		stdin,
		stdout,
		alternateScreen: true,
		incrementalRendering: true,
		exitOnCtrlC: false,
		// Both are terminals, or we would not be here; a CI variable in the environment changes nothing about that.
		interactive: true,
		maxFps: 60,
	});
	const ended = onHangUp(stdout, code => {
		const left = leave(now.get(), ports);
		now.set(left);
		instance.unmount();
		onSignal(left, code);
	});
	let fault: {readonly error: unknown} | undefined;
	const stopAt = (error: unknown) => {
		fault = {error};
		instance.unmount();
	};
	const broken = onFault(stopAt);
	// Ears follow the wizard's state; what they hear comes in like keys.
	const ears = earsFollower(ports, event => {
		try {
			now.set(hear(now.get(), event, ports));
		} catch (error) {
			stopAt(error);
		}
	});
	now.subscribe(() => ears.follow(now.get()));
	try {
		ears.follow(first);
	} catch (error) {
		stopAt(error);
	}

	try {
		await instance.waitUntilExit();
		if (fault) throw fault.error;
	} catch (error) {
		return faultEnding(leave(now.get(), ports), error);
	} finally {
		ears.stop();
		ended();
		broken();
		stdin.setRawMode(false);
	}

	return {kind: 'left', left: leave(now.get(), ports)};
}

interface Holder {
	get(): Wizard;
	set(wizard: Wizard): void;
	subscribe(listener: () => void): () => void;
}

/** Several keys may come in one chunk, before anything is drawn: each must see what the one before it did. */
function holder(first: Wizard): Holder {
	let wizard = first;
	const listeners = new Set<() => void>();
	return {
		get: () => wizard,
		set(next) {
			if (next === wizard) return;
			wizard = next;
			for (const listener of listeners) listener();
		},
		subscribe(listener) {
			listeners.add(listener);
			return () => listeners.delete(listener);
		},
	};
}

function App({
	now,
	ports,
	look,
	stdout,
}: {
	readonly now: Holder;
	readonly ports: Ports;
	readonly look: Look;
	readonly stdout: NodeJS.WriteStream;
}) {
	const app = useApp();
	const wizard = useSyncExternalStore(now.subscribe, now.get);
	// Left open over night it must not go on saying what held yesterday.
	const [, lookAgain] = useReducer((times: number) => times + 1, 0);
	useEffect(() => {
		const clock = setInterval(lookAgain, minuteMs);
		return () => clearInterval(clock);
	}, []);

	const go = (next: () => Wizard) => {
		try {
			now.set(next());
			if (now.get().screen === 'left') app.exit();
		} catch (error) {
			// Thrown inside an input event it would pass by everything that cleans up.
			app.exit(error);
		}
	};

	const isBlind = () => isTooSmall(stdout.columns, stdout.rows);
	useInput((input, key) => {
		for (const stroke of strokesOf(input, key)) {
			if (stroke === 'ctrl+z') void app.suspendTerminal(stopGroup);
			else if (!isBlind()) go(() => press(now.get(), stroke, ports));
			else if (stroke === 'q' || stroke === 'ctrl+c') go(() => leave(now.get(), ports));
		}
	});
	usePaste(text => {
		if (!isBlind()) go(() => paste(now.get(), text, ports));
	});
	return <Screen wizard={wizard} ports={ports} look={look} />;
}
