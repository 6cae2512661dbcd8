using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>What is known of one quantity of one unit.</summary>
/// <param name="Quantity">The quantity.</param>
/// <param name="Found">As found: before anything that disturbs it was turned.</param>
/// <param name="Left">
/// As left: after the last thing that disturbs it. When nothing disturbed it, the same readings count as both.
/// </param>
public sealed record QuantityKnown(
    MeasuredQuantity Quantity,
    ImmutableArray<PlaceKnown> Found,
    ImmutableArray<PlaceKnown> Left
);
