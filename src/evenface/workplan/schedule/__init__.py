"""The calendar: from steps to tasks, from tasks to days. Start reading at `tasks.problem_of`, then `listing`."""
