using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;

namespace ServiceRules.Application.Rows;

/// <summary>What a record shows something of, out of its timeline. One without a timeline shows nothing of any other.</summary>
internal static class ShownRows
{
    private const string DayForm = "yyyy-MM-dd";

    /// <param name="record">The record as JSON.</param>
    /// <param name="machine">Its machine.</param>
    /// <param name="dated">The day that it is dated.</param>
    public static ImmutableArray<ShownRow> Of(JsonElement record, string machine, DateOnly dated)
    {
        if (
            !record.TryGetProperty("timeline", out var timeline)
            || timeline.ValueKind != JsonValueKind.Array
            || timeline.GetArrayLength() == 0
        )
        {
            return [];
        }

        var entries = timeline.EnumerateArray().ToList();
        List<DateOnly> days =
        [
            dated,
            .. entries.Select(DayOf).OfType<DateOnly>(),
            .. record.TryGetProperty("signOff", out var signOff) && DayOf(signOff) is { } signed
                ? [signed]
                : Array.Empty<DateOnly>(),
        ];
        var (first, last) = (days.Min(), days.Max());
        return
        [
            .. Keys(entries, machine).Distinct().Select(one => new ShownRow(one.What, one.Key, first, last)),
        ];
    }

    private static IEnumerable<(ShownKind What, string Key)> Keys(List<JsonElement> entries, string machine)
    {
        yield return (ShownKind.Machine, machine);
        foreach (var entry in entries)
        {
            if (Text(entry, "lock") is { } device)
            {
                yield return (ShownKind.Lock, device);
            }

            if (Text(entry, "by") is { } person)
            {
                yield return (ShownKind.Person, person);
            }

            switch (Text(entry, "event"))
            {
                case "safety_defect_found" or "safety_defect_closed":
                    yield return (ShownKind.Defect, machine);
                    break;
                case "lock_removed" or "tag_removed" when Text(entry, "exception") is not null:
                    yield return (ShownKind.Exception, "");
                    break;
                default:
                    break;
            }
        }
    }

    private static DateOnly? DayOf(JsonElement timed) =>
        Text(timed, "at") is { Length: >= 10 } at
        && DateOnly.TryParseExact(
            at.AsSpan(0, DayForm.Length),
            DayForm,
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var day
        )
            ? day
            : null;

    private static string? Text(JsonElement parent, string name) =>
        parent.ValueKind == JsonValueKind.Object
        && parent.TryGetProperty(name, out var text)
        && text.ValueKind == JsonValueKind.String
            ? text.GetString()
            : null;
}
