using System.Globalization;

namespace ServiceRules.Host.Notices;

/// <summary>What names a notice among all notices of all services.</summary>
internal static class NoticeId
{
    // No place in the log begins with it.
    private const string DueMark = "due";

    /// <param name="log">Name of the log.</param>
    /// <param name="entry">Place of the assessment in it; negative: the number of what falls due.</param>
    /// <param name="recipient">Who is told.</param>
    public static string Of(string log, long entry, string recipient) =>
        entry < 0
            ? string.Create(CultureInfo.InvariantCulture, $"{log}-{DueMark}{-entry}-{recipient}")
            : string.Create(CultureInfo.InvariantCulture, $"{log}-{entry}-{recipient}");

    /// <summary>Null where it names none of this log.</summary>
    public static (long Entry, string Recipient)? Read(string log, string id)
    {
        if (!id.StartsWith(log + "-", StringComparison.Ordinal))
        {
            return null;
        }

        var parts = id[(log.Length + 1)..].Split('-', 2);
        var isDue = parts[0].StartsWith(DueMark, StringComparison.Ordinal);
        return
            parts.Length == 2
            && long.TryParse(
                isDue ? parts[0][DueMark.Length..] : parts[0],
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var number
            )
            && !(isDue && number == 0)
            ? (isDue ? -number : number, parts[1])
            : null;
    }
}
