namespace ServiceRules.Application.Ledger;

/// <summary>Ends a filing whose entry would not read back, so that its transaction leaves nothing.</summary>
public sealed class UnfitEntryException(FilingRefusal refusal) : Exception(refusal.ToString())
{
    public FilingRefusal Refusal { get; } = refusal;
}
