using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>How many hours a machine runs in a week, from its own hour meter.</summary>
public static class WeeklyUse
{
    private const int DaysInAWeek = 7;

    /// <summary>Hours between two meter readings over the weeks between them.</summary>
    /// <returns>Null when less than a week lies between them or the meter did not go forward.</returns>
    public static RunningTime? Of(DateOnly first, OperatingHours at, DateOnly last, OperatingHours until)
    {
        var days = last.DayNumber - first.DayNumber;
        var run = until.Since(at);
        return days < DaysInAWeek || run <= RunningTime.Zero
            ? null
            : RunningTime.FromHours(run.Hours * DaysInAWeek / days);
    }
}
