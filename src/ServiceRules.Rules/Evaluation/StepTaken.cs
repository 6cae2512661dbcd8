using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>The step that is taken of a gauge which states none, or one that is not believed.</summary>
/// <param name="Gauge">The gauge.</param>
/// <param name="Step">The coarsest last digit that was written down, or the least that is taken.</param>
/// <param name="IsLeast">Whether more digits than that were written down.</param>
public sealed record StepTaken(Id<Instrument> Gauge, Length Step, bool IsLeast)
{
    /// <summary>The step that it states and that is not believed; none where it states none.</summary>
    public PrintedLength? Stated { get; private init; }

    /// <summary>Whether the register's step is taken, which is coarser than the record's word.</summary>
    public bool IsRegisters { get; private init; }

    /// <summary>By what was written down with a gauge that states no step it is to be believed; null of any other.</summary>
    /// <param name="gauge">The gauge.</param>
    /// <param name="prints">Its readings, one or more.</param>
    public static StepTaken? Of(Instrument gauge, IReadOnlyList<PrintedLength> prints)
    {
        if (RegisterCoarser(gauge, prints) is { } registered)
        {
            return new(gauge.Id, registered, IsLeast: true) { Stated = gauge.Resolution, IsRegisters = true };
        }

        if (gauge.Resolution is { } stated)
        {
            return GaugeStep.IsTooFine(stated, gauge.Kind)
                ? new(gauge.Id, GaugeStep.FinestOf(gauge.Kind), IsLeast: true) { Stated = stated }
                : null;
        }

        var step = prints.Max(print => GaugeStep.Written(print, gauge.Kind));
        return new(gauge.Id, step, prints.All(print => print.RoundingHalfWidth * 2 < step));
    }

    /// <summary>The step of the register, where it is coarser than the one that the record's word comes to.</summary>
    private static Length? RegisterCoarser(Instrument gauge, IReadOnlyList<PrintedLength> prints) =>
        GaugeStep.ByRegister(gauge) is not { } registered ? null
        : gauge.Resolution is { } stated
            ? registered > GaugeStep.Believed(stated, gauge.Kind) ? registered
                : null
        : prints.All(print => registered > GaugeStep.Written(print, gauge.Kind)) ? registered
        : null;

    /// <summary>What is said of it beside a verdict.</summary>
    /// <param name="system">The units of the readings.</param>
    public string Words(UnitSystem system) =>
        (Stated, IsLeast) switch
        {
            ({ } stated, _) when IsRegisters =>
                $"gauge {Gauge} states a resolution of {stated}, and the register has {Wording.Of(Step, system)}: the coarser is taken for its step",
            (null, _) when IsRegisters =>
                $"gauge {Gauge} states no resolution: that of the register, {Wording.Of(Step, system)}, is taken for the step that it shows",
            ({ } stated, _) =>
                $"gauge {Gauge} states a resolution of {stated}, finer than any gauge of its kind shows: {Step} is taken for its step (common practice, no source)",
            (null, true) =>
                $"gauge {Gauge} states no resolution: {Wording.Of(Step, system)} is taken for the step that it shows, the least that digits written down can claim (common practice, no source)",
            _ =>
                $"gauge {Gauge} states no resolution: the last digit written down, {Wording.Of(Step, system)}, is taken for the step that it shows",
        };
}
