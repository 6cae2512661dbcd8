namespace ServiceRules.Application.Ledger;

/// <summary>One part of a filing.</summary>
internal abstract record FilingPart
{
    private FilingPart() { }

    /// <summary>It stands in the log already.</summary>
    public sealed record Standing(FiledEntry Entry) : FilingPart;

    /// <summary>It is appended.</summary>
    public sealed record New(EntryDraft Draft) : FilingPart;
}
