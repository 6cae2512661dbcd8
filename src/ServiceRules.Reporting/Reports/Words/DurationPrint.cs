using System.Globalization;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>How long something took, as people say it.</summary>
internal static class DurationPrint
{
    /// <summary><c>0 min</c>, <c>40 s</c>, <c>12 min</c>, <c>1 h 05 min</c>. Seconds only below an hour and when not nought.</summary>
    public static string Of(TimeSpan time)
    {
        var seconds = (long)time.TotalSeconds;
        var (hours, minutes, rest) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
        return (hours, minutes, rest) switch
        {
            (> 0, _, _) => string.Create(CultureInfo.InvariantCulture, $"{hours} h {minutes:00} min"),
            (_, 0, > 0) => string.Create(CultureInfo.InvariantCulture, $"{rest} s"),
            (_, _, > 0) => string.Create(CultureInfo.InvariantCulture, $"{minutes} min {rest} s"),
            _ => string.Create(CultureInfo.InvariantCulture, $"{minutes} min"),
        };
    }
}
