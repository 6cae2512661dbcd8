using System.Globalization;
using System.Text.Json.Nodes;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Beginning;

/// <summary>The gauges that a job takes up, each as it was last written down where that still holds.</summary>
internal sealed class BegunGauges(SiteRegisters site, IReadOnlyList<JsonObject> earlier, DateOnly day)
{
    private const string Unmeasured = BeginRecord.Mark + " mm";

    // Who did what to it on another day is no part of the gauge.
    private static readonly string[] Members =
    [
        "id",
        "kind",
        "resolution",
        "tolerance",
        "stacking",
        "repeatability",
        "calibration",
        "zeroCheck",
        "inspection",
    ];

    private readonly List<JsonObject> known =
    [
        // An open job may not have told all of a gauge yet.
        .. earlier
            .Where(record => record.ContainsKey("signOff"))
            .SelectMany(record => (record["instruments"] as JsonArray ?? []).OfType<JsonObject>())
            .DistinctBy(gauge => gauge["id"]?.GetValue<string>()),
    ];

    private readonly SortedSet<string> taken = new(StringComparer.Ordinal);

    /// <summary>The gauge that reads a quantity: the one used last, else the first of the register; null: none is known.</summary>
    public string? For(MeasuredQuantity quantity)
    {
        var able = site
            .Instruments.Where(gauge => gauge.Measures.Contains(quantity))
            .Select(gauge => gauge.Id.Text)
            .ToList();
        var word = Words.Of(quantity);
        var used = earlier
            .SelectMany(record => (record["units"] as JsonArray ?? []).OfType<JsonObject>())
            .SelectMany(unit => (unit["entries"] as JsonArray ?? []).OfType<JsonObject>())
            .Where(entry => Text(entry, "read") == word)
            .Select(entry => Text(entry, "with"))
            .FirstOrDefault(gauge =>
                gauge is not null && (able.Count == 0 || able.Contains(gauge, StringComparer.Ordinal))
            );
        var chosen = used ?? able.FirstOrDefault();
        if (chosen is not null)
        {
            taken.Add(chosen);
        }

        return chosen;
    }

    public JsonArray Taken() => [.. taken.Select(Told)];

    private JsonObject Told(string id)
    {
        var before = known.FirstOrDefault(gauge => Text(gauge, "id") == id);
        var told = before is null ? Registered(id) : Kept(before);
        if (told["zeroCheck"] is JsonObject zero)
        {
            // Of today, and not of then.
            zero["error"] = Unmeasured;
        }

        if (told["calibration"] is JsonObject calibration && !Holds(Text(calibration, "due")))
        {
            calibration["date"] = BeginRecord.Mark;
            calibration["due"] = BeginRecord.Mark;
        }

        return told;
    }

    private static JsonObject Kept(JsonObject all) =>
        new(Members.Where(all.ContainsKey).Select(name => KeyValuePair.Create(name, all[name]?.DeepClone())));

    private JsonObject Registered(string id)
    {
        if (site.Instruments.FirstOrDefault(one => one.Id.Text == id) is not { } gauge)
        {
            return new JsonObject { ["id"] = id, ["kind"] = BeginRecord.Mark };
        }

        if (gauge.Kind is InstrumentKind.FeelerGauge or InstrumentKind.PaperStrip)
        {
            return new JsonObject
            {
                ["id"] = id,
                ["kind"] = Words.Of(gauge.Kind),
                ["inspection"] = new JsonObject
                {
                    ["date"] = BeginRecord.Mark,
                    ["result"] = BeginRecord.Mark,
                },
            };
        }

        return new JsonObject
        {
            ["id"] = id,
            ["kind"] = Words.Of(gauge.Kind),
            ["resolution"] = gauge.Resolution.ToString(),
            ["calibration"] = new JsonObject
            {
                ["date"] = BeginRecord.Mark,
                ["due"] = BeginRecord.Mark,
                ["expandedUncertainty"] = gauge.ExpandedUncertainty.ToString(),
                ["coverageFactor"] = 2,
            },
            ["zeroCheck"] = new JsonObject { ["error"] = Unmeasured, ["settingPiece"] = BeginRecord.Mark },
        };
    }

    private bool Holds(string? due) =>
        due is null
        || DateOnly.TryParseExact(
            due,
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var until
        )
            && until >= day;

    private static string? Text(JsonObject holder, string name) =>
        holder[name] is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;
}
