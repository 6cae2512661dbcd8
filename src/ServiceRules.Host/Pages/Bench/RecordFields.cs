using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Beginning;
using ServiceRules.Host.Description;

namespace ServiceRules.Host.Pages.Bench;

/// <summary>
/// The form of a record: fields for its readings, the times of its steps and whatever else is to be filled in. What somebody
/// wrote there is put into the record; the record itself says all of it.
/// </summary>
internal static partial class RecordFields
{
    /// <summary>Before the name of a field: what it showed. Only what was changed there is put into the record.</summary>
    public const string Was = "was:";

    /// <summary>Before the name of a field: the unit.</summary>
    public const string UnitOf = "unit:";

    private const string Mark = BeginRecord.Mark;

    // A job has some hundred places, and a form may have a thousand values, of which a field takes up to three.
    private const int MostFields = 300;

    private static readonly string[] Units = ["mm", "in", "thou", "µm"];

    private static readonly string[] Sizes = [.. Units, "h", "bar", "kPa", "psi", "deg"];

    private static readonly Dictionary<string, string[]> Words = new(StringComparer.Ordinal)
    {
        ["paper"] = ["cuts", "nips", "misses"],
        ["condition"] = ["sound", "faulty"],
        ["contact"] = ["none", "light", "partial", "heavy"],
    };

    /// <summary>The text with what the form says; the text itself where it says nothing new or the text is no record.</summary>
    public static string Apply(string text, IFormCollection form)
    {
        if (Read(text) is not { } record)
        {
            return text;
        }

        var isChanged = false;
        foreach (var field in Groups(record, Sent(form)).SelectMany(group => group.Fields))
        {
            if (Said(field, form) is not { } said || At(record, field.Pointer) is not { } place)
            {
                continue;
            }

            isChanged = true;
            var (holder, name) = place;
            if (holder is JsonObject members)
            {
                members[name] = said;
            }
            else if (holder is JsonArray items)
            {
                items[int.Parse(name, System.Globalization.CultureInfo.InvariantCulture)] = said;
            }
        }

        return isChanged ? Written(record) : text;
    }

    public static string Written(JsonObject record) => record.ToJsonString(DescriptionServices.Writing);

    /// <summary>The fields of a text; none where it is no record.</summary>
    /// <param name="text">The text.</param>
    /// <param name="sheets">The limit sheets that there are.</param>
    /// <param name="form">What was sent; null: nothing was. What was filled in there stays to be seen.</param>
    public static IReadOnlyList<FieldGroup> Of(
        string text,
        IReadOnlyList<string> sheets,
        IFormCollection? form = null
    ) =>
        Read(text) is { } record
            ?
            [
                .. Groups(record, form is null ? [] : Sent(form))
                    .Select(group =>
                        group with
                        {
                            Fields = [.. group.Fields.Select(field => Chosen(field, sheets))],
                        }
                    ),
            ]
            : [];

    /// <summary>Whether a unit, or which sheet goes for one, was named by the form.</summary>
    public static bool NamesUnits(IFormCollection form) =>
        form.Keys.Any(name =>
            UnitName().IsMatch(name)
            && form[name].ToString().Trim() is { Length: > 0 } given
            && given + " " != form[Was + name].ToString()
        );

    private static RecordField Chosen(RecordField field, IReadOnlyList<string> sheets) =>
        UnitName().Match(field.Pointer).Groups["sheet"].Success
            ? field with
            {
                Kind = FieldKind.Choice,
                Choices =
                    field.Shown.Length == 0 || sheets.Contains(field.Shown, StringComparer.Ordinal)
                        ? sheets
                        : [field.Shown, .. sheets],
            }
            : field;

    [GeneratedRegex(@"\A/units/[0-9]+/(?:id|(?<sheet>sheet))\z")]
    private static partial Regex UnitName();

    /// <summary>The record of a text; null where it is none.</summary>
    public static JsonObject? RecordOf(string text) => Read(text);

    private static HashSet<string> Sent(IFormCollection form) =>
        form
            .Keys.Where(name => name.StartsWith(Was + "/", StringComparison.Ordinal))
            .Select(name => name[Was.Length..])
            .ToHashSet(StringComparer.Ordinal);

    private static JsonObject? Read(string text)
    {
        try
        {
            // A name that stands twice is told by the reader of records, with its place.
            return JsonNode.Parse(text, null, new JsonDocumentOptions { AllowDuplicateProperties = false })
                as JsonObject;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static IReadOnlyList<FieldGroup> Groups(JsonObject record, HashSet<string> sent)
    {
        string[] gauges =
        [
            .. Items(record, "instruments").Select(gauge => Text(gauge, "id")).OfType<string>().Distinct(),
        ];
        List<FieldGroup> groups = [];
        var told = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (unit, index) in Items(record, "units").Select((unit, index) => (unit, index)))
        {
            groups.Add(
                new(
                    $"Readings of unit {Text(unit, "id")}",
                    [
                        .. Items(unit, "entries")
                            .SelectMany(
                                (entry, place) => Reading(entry, $"/units/{index}/entries/{place}", gauges)
                            ),
                    ]
                )
            );
        }

        groups.Add(
            new(
                "Steps, and when they were done",
                [
                    .. Items(record, "timeline")
                        .Select((step, index) => Time(step, $"/timeline/{index}/at", LabelOf(step)))
                        .OfType<RecordField>(),
                    .. new[]
                    {
                        record["signOff"] is JsonObject signed
                            ? Time(signed, "/signOff/at", "signed off")
                            : null,
                    }.OfType<RecordField>(),
                ]
            )
        );
        told.UnionWith(groups.SelectMany(group => group.Fields).Select(field => field.Pointer));
        groups.Add(
            new(
                "What else is to be filled in",
                [.. Marked(record, record, "", sent).Where(field => !told.Contains(field.Pointer))]
            )
        );
        return groups.Sum(group => group.Fields.Count) > MostFields
            ? []
            : [.. groups.Where(group => group.Fields.Count > 0)];
    }

    private static IEnumerable<RecordField> Reading(JsonObject entry, string pointer, string[] gauges)
    {
        if (Text(entry, "read") is not { } quantity)
        {
            yield break;
        }

        var name = string.Join(
            ", ",
            new[]
            {
                quantity.Replace('-', ' '),
                Text(entry, "station"),
                Text(entry, "phase") is { } phase ? "as " + phase : null,
                entry["passes"] is JsonValue passes && passes.TryGetValue<bool>(out var does)
                    ? does
                        ? "feeler that passes"
                        : "feeler that does not pass"
                    : null,
            }.OfType<string>()
        );
        foreach (var member in new[] { "value", "feeler" })
        {
            if (Text(entry, member) is { } value)
            {
                // `1 1/16 in`: the unit is what stands last.
                var gap = value.LastIndexOf(' ');
                var unit = gap < 0 ? "" : value[(gap + 1)..];
                yield return new(
                    $"{pointer}/{member}",
                    name,
                    FieldKind.Quantity,
                    Filled(gap < 0 ? value : value[..gap])
                )
                {
                    Unit = unit,
                    Choices = Units.Contains(unit, StringComparer.Ordinal) ? Units : [unit, .. Units],
                };
            }
        }

        foreach (var (member, words) in Words)
        {
            if (Text(entry, member) is { } word)
            {
                yield return new($"{pointer}/{member}", name, FieldKind.Choice, Filled(word))
                {
                    Choices = words,
                };
            }
        }

        if (Text(entry, "with") is { } gauge && gauges.Length > 0)
        {
            yield return new($"{pointer}/with", "with", FieldKind.Choice, Filled(gauge)) { Choices = gauges };
        }
    }

    // `isolator operated: engine start, off`
    private static string LabelOf(JsonObject step)
    {
        var what = (Text(step, "event") ?? "").Replace('_', ' ');
        var more = string.Join(
            ", ",
            new[] { "source", "lock", "position" }
                .Select(name => Text(step, name)?.Replace('_', ' '))
                .OfType<string>()
        );
        return more.Length == 0 ? what : $"{what}: {more}";
    }

    // `2026-11-27T08:10:00+00:00`, of which the form has the time.
    private static RecordField? Time(JsonObject step, string pointer, string label) =>
        Text(step, "at") is { Length: >= 19 } at
            ? new(
                pointer,
                label,
                FieldKind.Time,
                at[11..19].Contains(Mark, StringComparison.Ordinal) ? "" : at[11..19]
            )
            {
                Unit = at,
            }
            : null;

    private static IEnumerable<RecordField> Marked(
        JsonObject root,
        JsonNode? node,
        string pointer,
        HashSet<string> sent
    ) =>
        node switch
        {
            JsonObject members => members.SelectMany(member =>
                Marked(
                    root,
                    member.Value,
                    $"{pointer}/{member.Key.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)}",
                    sent
                )
            ),
            JsonArray items => items.SelectMany(
                (item, index) => Marked(root, item, $"{pointer}/{index}", sent)
            ),
            JsonValue value
                when value.TryGetValue<string>(out var text) && (IsMarked(text) || sent.Contains(pointer)) =>
            [
                Anything(text, pointer, Label(root, pointer)),
            ],
            _ => [],
        };

    // `? mm`, or `0.00 mm` where it was filled in: the unit is no part of what is written.
    private static RecordField Anything(string text, string pointer, string label)
    {
        var gap = text.LastIndexOf(' ');
        var isSized =
            gap > 0 && (IsMarked(text) || Sizes.Contains(text[(gap + 1)..], StringComparer.Ordinal));
        return new(
            pointer,
            label,
            FieldKind.Text,
            IsMarked(text) ? ""
                : isSized ? text[..gap]
                : text
        )
        {
            Unit = isSized ? text[gap..] : "",
        };
    }

    // `/instruments/0/zeroCheck/error` of HG-01: HG-01, zero check error.
    private static string Label(JsonObject root, string pointer)
    {
        List<string> words = [];
        JsonNode? node = root;
        foreach (var part in pointer[1..].Split('/'))
        {
            if (node is JsonArray items)
            {
                var index = int.Parse(part, System.Globalization.CultureInfo.InvariantCulture);
                node = items[index];
                words.Add(
                    node is JsonObject one && Text(one, "id") is { } id && !IsMarked(id)
                        ? id + ","
                        : (index + 1).ToString(System.Globalization.CultureInfo.InvariantCulture)
                );
            }
            else
            {
                node = node?[Name(part)];
                words.Add(JsonNamingPolicy.KebabCaseLower.ConvertName(Name(part)).Replace('-', ' '));
            }
        }

        return string.Join(' ', words);
    }

    // `?` alone, or before a unit.
    private static bool IsMarked(string text) =>
        text == Mark || text.StartsWith(Mark + " ", StringComparison.Ordinal);

    private static string Filled(string text) => text == Mark ? "" : text;

    // What somebody wrote; null where it is what was shown.
    private static string? Said(RecordField field, IFormCollection form)
    {
        var given = form[field.Pointer].ToString().Trim();
        var unit = form[UnitOf + field.Pointer].ToString();
        if (given.Length == 0 || given + " " + unit == form[Was + field.Pointer].ToString())
        {
            return null;
        }

        return field.Kind switch
        {
            FieldKind.Quantity => HasUnit(given) ? given : $"{given} {unit}",
            FieldKind.Time => field.Unit[..11]
                + (given.Length == 5 ? given + ":00" : given)
                + field.Unit[19..],
            FieldKind.Text => HasUnit(given) ? given : given + field.Unit,
            _ => given,
        };
    }

    private static bool HasUnit(string given) => given.Any(char.IsLetter);

    private static (JsonNode Holder, string Name)? At(JsonObject record, string pointer)
    {
        var parts = pointer[1..].Split('/');
        JsonNode? node = record;
        foreach (var part in parts[..^1])
        {
            node = node is JsonArray items
                ? items[int.Parse(part, System.Globalization.CultureInfo.InvariantCulture)]
                : node?[Name(part)];
        }

        return node is null ? null : (node, Name(parts[^1]));
    }

    private static string Name(string part) =>
        part.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);

    private static IEnumerable<JsonObject> Items(JsonObject holder, string name) =>
        holder[name] is JsonArray items && items.All(item => item is JsonObject)
            ? items.Select(item => item!.AsObject())
            : [];

    private static string? Text(JsonObject holder, string name) =>
        holder[name] is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;
}
