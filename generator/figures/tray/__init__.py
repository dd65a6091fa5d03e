"""The tray sheet: printed at 1:1, it keeps screws and small parts where and in what order they came out."""
