"""What is kept: records, the services that write them, the questions that read them."""
