using ServiceRules.Domain.Timeline;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>Times as they were recorded: never moved to another clock.</summary>
public static class TimePrint
{
    /// <summary>Hour and minute, with seconds only when they are not zero; <c>~</c> before one without offset.</summary>
    public static string Clock(RecordedTime time)
    {
        // The recorded form is fixed: yyyy-mm-ddThh:mm:ss.
        var text = time.Text;
        var clock = text.Substring(17, 2) == "00" ? text.Substring(11, 5) : text.Substring(11, 8);
        return time is RecordedTime.LocalTime ? $"~{clock}" : clock;
    }

    public static string HourMinute(RecordedTime time) => time.Text.Substring(11, 5);

    public static string Day(RecordedTime time) => time.Text[..10];

    public static string Full(RecordedTime time) =>
        time is RecordedTime.LocalTime ? $"{time.Text} (no offset recorded)" : time.Text;
}
