using System.Globalization;

namespace ServiceRules.Host.Notices;

/// <summary>What names a notice among all notices of all services.</summary>
internal static class NoticeId
{
    /// <param name="log">Name of the log.</param>
    /// <param name="entry">Place of the assessment in it.</param>
    /// <param name="recipient">Who is told.</param>
    public static string Of(string log, long entry, string recipient) =>
        string.Create(CultureInfo.InvariantCulture, $"{log}-{entry}-{recipient}");

    /// <summary>Null where it names none of this log.</summary>
    public static (long Entry, string Recipient)? Read(string log, string id)
    {
        if (!id.StartsWith(log + "-", StringComparison.Ordinal))
        {
            return null;
        }

        var parts = id[(log.Length + 1)..].Split('-', 2);
        return
            parts.Length == 2
            && long.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var entry)
            ? (entry, parts[1])
            : null;
    }
}
