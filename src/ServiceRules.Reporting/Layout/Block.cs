namespace ServiceRules.Reporting.Layout;

/// <summary>
/// A node of the layout tree: pure content with no place yet. A block can always be cut: what does not fit in the
/// space that is left comes back as the block for the next page.
/// </summary>
public abstract class Block
{
    private protected Block() { }

    /// <summary>True for a heading, which never stands last on a page.</summary>
    internal virtual bool KeepsWithNext => false;

    /// <summary>
    /// Places as much as fits. At the top of a page (<see cref="Space.Fresh"/>) something is always placed, so that
    /// layout ends.
    /// </summary>
    internal abstract Fragment Fit(Space space);

    /// <summary>Adds every text of this block, so that the finished pages can be held against it.</summary>
    internal abstract void Tell(TextLedger ledger);
}
