using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Comparing;

/// <summary>One thing that two folders of rules say differently.</summary>
/// <param name="Kind">What kind of thing.</param>
/// <param name="Of">Which: the identity of the rule, limit sheet or setting order; the name of the register.</param>
/// <param name="Quantity">Of a limit: the quantity.</param>
/// <param name="Parts">What is said differently; empty where the whole is new or gone.</param>
public sealed record FolderChange(
    ChangeKind Kind,
    string Of,
    MeasuredQuantity? Quantity,
    ImmutableArray<PartChange> Parts
)
{
    /// <summary>Whether a verdict can change by it.</summary>
    public bool CanFlip =>
        Kind
            is not (
                ChangeKind.Citation
                or ChangeKind.Words
                or ChangeKind.SheetAdded
                or ChangeKind.SheetRemoved
            );
}
