using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Formats.Json.Shapes;

namespace ServiceRules.Formats.Ledger;

/// <summary>A time as entries have it, and what they name: in UTC, to the millisecond.</summary>
internal static class EntryInstant
{
    private const string Form = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";
    private const string Accepted = "a time in UTC to the millisecond such as `2026-04-13T07:04:00.000Z`";

    public static JsonShape<DateTimeOffset> Shape { get; } =
        Json.Shapes.Shape.Read(
            Read,
            at => at.UtcDateTime.ToString(Form, CultureInfo.InvariantCulture),
            @"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}\.[0-9]{3}Z",
            Accepted
        );

    private static Parsed<DateTimeOffset> Read(string text) =>
        DateTimeOffset.TryParseExact(
            text,
            Form,
            CultureInfo.InvariantCulture,
            DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal,
            out var at
        )
            ? Parsed<DateTimeOffset>.Of(at)
            : Parsed<DateTimeOffset>.Refused(
                new ParseFailure(text, Accepted) { Problem = "this time is in no calendar" }
            );
}
