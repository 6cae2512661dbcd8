namespace ServiceRules.Application.Ledger;

/// <summary>
/// A store could not do what was asked, for a reason that lies outside the product; its trouble says whether anything of
/// it was done.
/// </summary>
public sealed class LedgerStoreException(StoreTrouble trouble, string message, Exception? inner = null)
    : IOException(message, inner)
{
    public StoreTrouble Trouble { get; } = trouble;

    /// <summary>Whether everything else in the same transaction is undone too.</summary>
    public bool EndsTransaction { get; init; }

    /// <summary>What it was found in, where whoever asked may know that: a place in the log.</summary>
    public string? Place { get; init; }
}
