using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using ServiceRules.Application.RuleCases;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Authoring;

/// <summary>Fixtures changed until a rule is in on them: the attachment fitted, what the rule looks at read.</summary>
internal static class FittedFixture
{
    private static readonly string[] GaugeKinds =
    [
        "height-gauge",
        "dial-gauge",
        "calliper",
        "micrometer",
        "diameter-tape",
    ];

    /// <summary>The fixture as it stands first, then with more and more of what the rule asks for.</summary>
    public static IEnumerable<Fixture> Of(
        Fixture fixture,
        Rule rule,
        MeasuredQuantity quantity,
        RuleBook book
    )
    {
        var fitted = fixture.Record.DeepClone().AsObject();
        Fit(fitted, rule);
        yield return fixture with
        {
            Record = fitted,
        };
        var sheet = book.Sheets.FirstOrDefault(one => one.Id.Text == (string?)fitted["units"]![0]!["sheet"]);
        foreach (var entries in Readings(fitted, quantity, sheet?.Of(quantity)))
        {
            var more = fitted.DeepClone().AsObject();
            var all = more["units"]![0]!["entries"]!.AsArray();
            foreach (var entry in entries)
            {
                all.Add(entry);
            }

            yield return fixture with
            {
                Record = more,
            };
        }
    }

    private static void Fit(JsonObject record, Rule rule)
    {
        var unit = record["units"]![0]!.AsObject();
        var fitted = unit["attachments"]?.AsArray().Select(one => (string?)one).ToList() ?? [];
        var all = fitted
            .Concat(rule.When.Attachments.Select(FileWord.Of))
            .Distinct(StringComparer.Ordinal)
            .Select(word => (JsonNode?)word);
        if (!rule.When.Attachments.IsEmpty)
        {
            unit["attachments"] = new JsonArray([.. all]);
        }
    }

    private static IEnumerable<ImmutableArray<JsonObject>> Readings(
        JsonObject record,
        MeasuredQuantity quantity,
        QuantityLimit? limit
    )
    {
        var word = FileWord.Of(quantity);
        yield return [new() { ["read"] = word, ["condition"] = "sound" }];
        yield return [new() { ["read"] = word, ["contact"] = "light" }];
        var aim =
            limit?.Target?.Governing.Value
            ?? (
                limit?.Lower is { } lower && limit.Upper is { } upper
                    ? (Length?)((lower.Governing.Value + upper.Governing.Value) * 0.5m)
                    : null
            )
            ?? limit?.Lower?.Governing.Value * 1.1m
            ?? limit?.Upper?.Governing.Value * 0.8m;
        if (aim is not { } value)
        {
            yield break;
        }

        var text = Math.Round(value.Millimetres, 2).ToString("0.00", CultureInfo.InvariantCulture) + " mm";
        foreach (
            var gauge in record["instruments"]
                ?.AsArray()
                .Where(one => GaugeKinds.Contains((string?)one!["kind"]))
                .Select(one => (string)one!["id"]!)
                ?? []
        )
        {
            yield return
            [
                .. new[] { "left", "right" }.Select(station => new JsonObject
                {
                    ["read"] = word,
                    ["station"] = station,
                    ["value"] = text,
                    ["with"] = gauge,
                }),
            ];
        }
    }
}
