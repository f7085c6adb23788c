"""The text of a job sheet, made in one room for the sheet, the planner and the command."""
