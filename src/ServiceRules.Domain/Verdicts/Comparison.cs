using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Verdicts;

/// <summary>One comparison of what is known at a place with what is asked there.</summary>
public sealed record Comparison
{
    /// <summary>The quantity.</summary>
    public required MeasuredQuantity Quantity { get; init; }

    /// <summary>Where: a station such as <c>51 mm</c>, <c>left end</c>, <c>across</c>.</summary>
    public required string Place { get; init; }

    /// <summary>Whether the place is an end that the line through the readings tells, and not one that was read.</summary>
    public bool IsAtEnd { get; init; }

    /// <summary>
    /// The units in which the statement tells it: those of the readings it rests on, of readings in both those whose print
    /// governs; null where an older assessment does not say.
    /// </summary>
    public UnitSystem? ToldIn { get; init; }

    /// <summary>Verdict at this place.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>Why.</summary>
    public required FindingReason Reason { get; init; }

    /// <summary>Best value, if there is one.</summary>
    public Length? Value { get; init; }

    /// <summary>
    /// What was written down there, the mean of several readings, where the error that a gauge's zero check states was taken out of it;
    /// null where nothing was, and where an older assessment does not say.
    /// </summary>
    public Length? AsRead { get; init; }

    /// <summary>Lower end of what is known, if bounded.</summary>
    public Length? KnownLower { get; init; }

    /// <summary>Upper end of what is known, if bounded.</summary>
    public Length? KnownUpper { get; init; }

    /// <summary>Expanded uncertainty of the value, if it is a measured value.</summary>
    public Length? Uncertainty { get; init; }

    /// <summary>
    /// What that uncertainty is made of; null for what is no measured value, and where an older assessment does not say.
    /// </summary>
    public StatedBudget? Budget { get; init; }

    /// <summary>Lower limit, if any.</summary>
    public Length? LowerLimit { get; init; }

    /// <summary>Upper limit, if any.</summary>
    public Length? UpperLimit { get; init; }

    /// <summary>Lower end of the acceptance zone, if any.</summary>
    public Length? AcceptLower { get; init; }

    /// <summary>Upper end of the acceptance zone, if any.</summary>
    public Length? AcceptUpper { get; init; }

    /// <summary>Target, where there is one.</summary>
    public Length? Target { get; init; }

    /// <summary>Probability of conformance, 0 to 1, to 1e-9; absent for interval knowledge without a model.</summary>
    public decimal? Probability { get; init; }

    /// <summary>Signed distance to the nearest limit: positive inside.</summary>
    public Length? Margin { get; init; }
}
