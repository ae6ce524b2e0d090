import {render, Text, useInput} from 'ink';
import {useState} from 'react';

// The least that an Ink program on the full screen can be, and shows that it heard a key: what ours is measured against.
function Bare() {
	const [typed, setTyped] = useState('');
	useInput(input => setTyped(before => (before + input).slice(-60)));
	return <Text>{`Bare and ready ${typed}`}</Text>;
}

render(<Bare />, {
	alternateScreen: true,
	incrementalRendering: true,
	exitOnCtrlC: false,
	interactive: true,
	maxFps: 60,
});
