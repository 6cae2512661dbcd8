using System.Globalization;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>One event of a timeline as it is listed: when, and what happened with what.</summary>
public static class EventPrint
{
    /// <summary>The time, with the day only where it is not the day of the job.</summary>
    public static string When(RecordedTime at, DateOnly jobDay)
    {
        var day = DateOnly.TryParseExact(
            TimePrint.Day(at),
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var date
        );
        var other = day && date != jobDay ? $"{TimePrint.Day(at)} " : "";
        return other + TimePrint.Clock(at);
    }

    public static string Told(TimelineEvent one)
    {
        string?[] details =
        [
            one.Source switch
            {
                SourceReference.One named => named.Source.Text.Replace('_', ' '),
                SourceReference.All => "all sources",
                SourceReference.GroupBox => "group box",
                _ => null,
            },
            one.Isolator?.Replace('_', ' '),
            one.Position is { } position ? position.ToString().ToLowerInvariant() : null,
            one.Lock is { } device ? $"lock {device.Text}" : null,
            one.AtLockPoint ? "at the lock point" : null,
            one.Pressure?.ToString(),
            one.Measures.IsEmpty ? null : string.Join(", ", one.Measures.Select(MeasureWords.Of)),
            one.Method,
            one.Reason,
            one.Exception is { } exception ? $"exception: {exception}" : null,
            one.Others.IsEmpty ? null : $"with {string.Join(", ", one.Others.Select(other => other.Text))}",
            one.Mark == EntryMark.AtTheTime ? null : ReportWords.Of(one.Mark),
        ];
        var told = string.Join(", ", details.OfType<string>());
        return told.Length == 0 ? ReportWords.Of(one.Kind) : $"{ReportWords.Of(one.Kind)} ({told})";
    }
}
