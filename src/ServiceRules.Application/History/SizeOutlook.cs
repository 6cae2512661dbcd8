using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Application.History;

/// <summary>How a size of a part stands to its limit, and when wear brings it there.</summary>
public sealed record SizeOutlook
{
    /// <summary>Reel diameter, bedknife lip or land width.</summary>
    public required MeasuredQuantity Quantity { get; init; }

    /// <summary>Identity of the reel or bedknife; null when no record names it.</summary>
    public required string? Part { get; init; }

    /// <summary>The readings, each as a job left it.</summary>
    public required ImmutableArray<SizePoint> Points { get; init; }

    /// <summary>The last reading.</summary>
    public SizePoint Last => Points[^1];

    /// <summary>The sheet's limit; null when it states none.</summary>
    public required Length? Limit { get; init; }

    /// <summary>From which side wear comes to it.</summary>
    public required LimitSide Side { get; init; }

    /// <summary>What is left to the limit; negative past it. Null without a limit.</summary>
    public Length? Remaining =>
        Limit is not { } limit ? null
        : Side == LimitSide.Lower ? Last.Value - limit
        : limit - Last.Value;

    /// <summary>Different hours at which there was a reading, over all grinds.</summary>
    public required int Hours { get; init; }

    /// <summary>The line of Theil and Sen over all readings, grinds included; null with fewer than three hours.</summary>
    public required RobustTrend? Robust { get; init; }

    /// <summary>When it comes to the limit by that line.</summary>
    public required Forecast? ByRobust { get; init; }

    /// <summary>The line of least squares over the same.</summary>
    public required LeastSquaresTrend? Line { get; init; }

    /// <summary>When it comes to the limit by that line.</summary>
    public required Forecast? ByLine { get; init; }

    /// <summary>Running wear since the last grind alone; null with fewer than three hours.</summary>
    public required RobustTrend? Running { get; init; }

    /// <summary>What one grind takes off, mean of the grinds of this kind of unit, or the sheet's own figure.</summary>
    public required Length? PerGrind { get; init; }

    /// <summary>Grinds that this mean was taken over; 0: it is the sheet's figure.</summary>
    public required int GrindsSeen { get; init; }

    /// <summary>Whole grinds left above the limit; null without a limit or a figure.</summary>
    public required int? GrindsLeft { get; init; }

    /// <summary>The day from which hours are comparable: before it another meter counted. Null: all are.</summary>
    public required DateOnly? JoinedFrom { get; init; }

    /// <summary>A forecast with its days.</summary>
    /// <param name="Hours">In hours.</param>
    /// <param name="Days">In days, at the hours a week seen; null where there are none or they lie beyond 2200.</param>
    public sealed record Forecast(WearForecast Hours, ForecastDates? Days);
}
