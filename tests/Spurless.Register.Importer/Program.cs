using Spurless.Register.Importing;

// Imports argument 0 into argument 1, with so many rows a commit that a kill falls between commits now and then.
ImportOutcome outcome = RegisterImport.Run(new ImportQuestion
{
    Files = [args[0]],
    Database = args[1],
    AsOf = new DateOnly(2031, 3, 4),
    RowsPerCommit = 200,
});
return outcome.Answer is null ? 1 : 0;
