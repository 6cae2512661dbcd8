namespace ServiceRules.Reporting.Layout;

/// <summary>What follows in the same stack starts on a new page, unless it is at the top of one already.</summary>
public sealed class PageBreak : Block
{
    internal override Fragment Fit(Space space) => new([], 0, null);

    internal override void Tell(TextLedger ledger) { }
}
