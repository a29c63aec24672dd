"""The metal's way into the mould: sprue, runner and gates, how fast they fill it, and whether the metal gets there liquid."""
