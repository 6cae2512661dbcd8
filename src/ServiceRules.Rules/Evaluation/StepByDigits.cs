using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation;

/// <summary>The step that is taken of a gauge which states none.</summary>
/// <param name="Gauge">The gauge.</param>
/// <param name="Step">The coarsest last digit that was written down, or the least that is taken of any gauge.</param>
/// <param name="IsLeast">Whether more digits than that were written down.</param>
public sealed record StepByDigits(Id<Instrument> Gauge, Length Step, bool IsLeast)
{
    /// <summary>By what was written down with a gauge that states no resolution.</summary>
    /// <param name="gauge">The gauge.</param>
    /// <param name="prints">Its readings, one or more.</param>
    public static StepByDigits Of(Instrument gauge, IReadOnlyList<PrintedLength> prints)
    {
        var step = prints.Max(print => GaugeFindings.StepWritten(print, gauge.Kind));
        return new(gauge.Id, step, prints.All(print => print.RoundingHalfWidth * 2 < step));
    }

    /// <summary>What is said of it beside a verdict.</summary>
    /// <param name="system">The units of the readings.</param>
    public string Words(UnitSystem system) =>
        IsLeast
            ? $"gauge {Gauge} states no resolution: {Wording.Of(Step, system)} is taken for the step that it shows, the least that digits written down can claim (common practice, no source)"
            : $"gauge {Gauge} states no resolution: the last digit written down, {Wording.Of(Step, system)}, is taken for the step that it shows";
}
