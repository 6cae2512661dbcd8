using System.CommandLine;
using System.Globalization;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Cli.Setup;

/// <summary>Values given as text with an option; what is wrong with them is told like everything else.</summary>
internal static class GivenValue
{
    /// <exception cref="InputException">It is no length.</exception>
    public static PrintedLength? Length(ParseResult parsed, Option<string?> option)
    {
        if (parsed.GetValue(option) is not { } text)
        {
            return null;
        }

        return PrintedLength.Parse(text).TryGet(out var length, out var failure)
            ? length
            : throw new InputException($"{option.Name}: {failure}");
    }

    /// <exception cref="InputException">It is no day.</exception>
    public static DateOnly? Day(ParseResult parsed, Option<string?> option)
    {
        if (parsed.GetValue(option) is not { } text)
        {
            return null;
        }

        return DateOnly.TryParseExact(
            text,
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var day
        )
            ? day
            : throw new InputException(
                $"{option.Name}: `{text}` is no day of the calendar; accepted: a day such as `2026-03-01`"
            );
    }

    /// <summary>An instant, or the start of a day in UTC.</summary>
    /// <exception cref="InputException">It is none.</exception>
    public static DateTimeOffset? Instant(ParseResult parsed, Option<string?> option)
    {
        if (parsed.GetValue(option) is not { } text)
        {
            return null;
        }

        string[] forms = ["yyyy-MM-dd", "yyyy-MM-dd'T'HH:mm:ss'Z'", "yyyy-MM-dd'T'HH:mm:sszzz"];
        return DateTimeOffset.TryParseExact(
            text,
            forms,
            CultureInfo.InvariantCulture,
            DateTimeStyles.AssumeUniversal,
            out var at
        )
            ? at
            : throw new InputException(
                $"{option.Name}: `{text}` is no time; accepted: `2026-03-01` (its start, UTC), `2026-03-01T07:30:00Z`, or with an offset such as `+01:00`"
            );
    }
}
