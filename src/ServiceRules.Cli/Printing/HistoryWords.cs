using System.Globalization;
using ServiceRules.Application.History;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Trade;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>Figures of a history as a shop lead reads them.</summary>
internal static class HistoryWords
{
    private const int ThousandHours = 1000;

    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Hours to three figures: nobody plans to the hour years ahead.</summary>
    public static string Hours(RunningTime time) => Hours(time, decimal.Round);

    /// <summary>The least hours of a band: never more than they are.</summary>
    public static string HoursDown(RunningTime time) => Hours(time, decimal.Floor);

    /// <summary>The most hours of a band: never fewer than they are.</summary>
    public static string HoursUp(RunningTime time) => Hours(time, decimal.Ceiling);

    private static string Hours(RunningTime time, Func<decimal, decimal> rounded)
    {
        var hours = time.Hours;
        var quantum = Math.Abs(hours) switch
        {
            >= 10_000m => 1000m,
            >= 1000m => 100m,
            >= 100m => 10m,
            _ => 1m,
        };
        return string.Create(CultureInfo.InvariantCulture, $"{rounded(hours / quantum) * quantum:0} h");
    }

    /// <summary>A rate over a thousand hours, without its sign.</summary>
    public static string PerThousandHours(WearRate rate, UnitSystem system) =>
        Length(rate * RunningTime.FromHours(ThousandHours), system);

    /// <summary>A length to 0.01 mm or 0.0005 in: what is learned over months is no finer.</summary>
    public static string Length(Length length, UnitSystem system) => LengthPrint.Settable(length, system);

    /// <summary>The least of a band of lengths, to 0.01 mm or 0.0005 in: never more than it is.</summary>
    public static string LengthDown(Length length, UnitSystem system) =>
        To(length, system, system == UnitSystem.Inch ? 0.0127m : 0.01m, decimal.Floor);

    /// <summary>The most of a band of lengths, to 0.01 mm or 0.0005 in: never less than it is.</summary>
    public static string LengthUp(Length length, UnitSystem system) =>
        To(length, system, system == UnitSystem.Inch ? 0.0127m : 0.01m, decimal.Ceiling);

    /// <summary>A length to 0.001 mm or 0.0001 in, for what is as small as a step.</summary>
    public static string Fine(Length length, UnitSystem system) =>
        To(length, system, FinestOf(system), decimal.Round);

    /// <summary>The least of what is known, to 0.001 mm or 0.0001 in: never more than it is.</summary>
    public static string FineDown(Length length, UnitSystem system) =>
        To(length, system, FinestOf(system), decimal.Floor);

    /// <summary>The most of what is known, to 0.001 mm or 0.0001 in: never less than it is.</summary>
    public static string FineUp(Length length, UnitSystem system) =>
        To(length, system, FinestOf(system), decimal.Ceiling);

    private static decimal FinestOf(UnitSystem system) => system == UnitSystem.Inch ? 0.00254m : 0.001m;

    private static string To(
        Length length,
        UnitSystem system,
        decimal quantum,
        Func<decimal, decimal> rounded
    ) =>
        LengthPrint.Of(
            Domain.Quantities.Length.FromMillimetres(rounded(length.Millimetres / quantum) * quantum),
            system
        );

    /// <summary>A level in whole percent.</summary>
    public static string Percent(Probability level) =>
        string.Create(CultureInfo.InvariantCulture, $"{level.Value * 100m:0} %");

    /// <summary>A length with its sign.</summary>
    public static string Signed(Length length, UnitSystem system) => Sign(length) + Fine(length, system);

    private static string Sign(Length length) => length >= Domain.Quantities.Length.Zero ? "+" : "";

    public static string Of(OffsetOutlook offset)
    {
        var where = string.Create(
            CultureInfo.InvariantCulture,
            $"machine {offset.Machine}{(offset.Area is { } area ? $" on {area}" : "")}, {offset.Season}: {ReportWords.Counted(offset.Pairs, "pair", "pairs")}"
        );
        var low =
            offset.BelowPrism > 0
                ? $"; {ReportWords.Counted(offset.BelowPrism, "pair", "pairs")} left out, read at or below 0.120 in (3.05 mm), where a prism cannot be relied on (S06)"
                : "";
        return offset.Learned is { } learned
            ? $"{where}: cuts {Signed(learned.Median, offset.System)} from the bench height (pairs from {Sign(learned.Least)}{FineDown(learned.Least, offset.System)} to {Sign(learned.Greatest)}{FineUp(learned.Greatest, offset.System)}){Bench(offset, learned)}{low}"
            : $"{where}: three are needed before anything is said{low}";
    }

    private static string Bench(OffsetOutlook offset, EffectiveHeightOffset learned) =>
        learned.BenchFor(offset.LastBench) is var bench && bench > Domain.Quantities.Length.Zero
            ? $"; to have {Fine(offset.LastBench, offset.System)}, its last bench height, on the turf, set the bench to {Fine(bench, offset.System)}"
            : "";
}
