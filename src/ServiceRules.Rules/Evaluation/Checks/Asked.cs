using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What is to be judged at one place.</summary>
/// <param name="Quantity">The quantity.</param>
/// <param name="Place">The place as comparisons name it.</param>
/// <param name="Said">The place as people say it.</param>
/// <param name="Knowledge">What is known there.</param>
/// <param name="System">The units of the reading: they pick the print.</param>
/// <param name="Doubt">Why it cannot prove anything, or None.</param>
/// <param name="NaturalBound">The value that it cannot pass, such as 0 for a gap.</param>
internal sealed record Asked(
    MeasuredQuantity Quantity,
    string Place,
    string Said,
    Knowledge Knowledge,
    UnitSystem System,
    FindingReason Doubt,
    Length? NaturalBound
)
{
    /// <summary>What of the doubt is not the gauge's, if any.</summary>
    public GrownDoubt? Grown { get; init; }

    /// <summary>Whether the readings it rests on are not all of one unit system: then both prints hold it.</summary>
    public bool IsReadInBoth { get; init; }

    /// <summary>Which way it departs, where what is said does not tell.</summary>
    public string? Way { get; init; }

    /// <summary>What was read, where a zero check's error was taken out of it.</summary>
    public ZeroCorrected? Corrected { get; init; }

    /// <summary>The place alone, where what is said tells more than that.</summary>
    public string? Where { get; init; }

    /// <summary>
    /// What is said of a difference that goes the other way; what feelers leave open on both sides of nothing is told by both.
    /// </summary>
    public string? SaidOtherWay { get; init; }

    /// <summary>Whether the place is an end that the line tells, and not one that was read.</summary>
    public bool IsAtEnd { get; init; }
}
