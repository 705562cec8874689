"""Values to PDF: the job card; never touches the database."""
