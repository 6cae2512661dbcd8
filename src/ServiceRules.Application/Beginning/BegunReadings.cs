using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Beginning;

/// <summary>
/// The readings that the rules will ask for: those which they miss in the same job with nothing read, at the stations of the
/// limit sheet.
/// </summary>
internal static class BegunReadings
{
    public static void Put(JsonObject record, RuleBook book, AssessRecord judging, BegunGauges gauges)
    {
        var units = record["units"]!.AsArray().OfType<JsonObject>().ToList();
        var missed = Missed(record, judging);
        foreach (var unit in units)
        {
            var sheet = book.Sheet(unit["sheet"]!.GetValue<string>());
            unit["entries"] = sheet is null
                ? []
                : Entries(sheet, book, missed.GetValueOrDefault(unit["id"]!.GetValue<string>(), []), gauges);
        }
    }

    // By unit: the rules that miss a reading, and of what.
    private static Dictionary<string, List<(string Rule, MeasuredQuantity Quantity)>> Missed(
        JsonObject record,
        AssessRecord judging
    )
    {
        var probe = record.DeepClone().AsObject();
        probe["machine"]!.AsObject().Remove("hours");
        probe["people"] = new JsonArray(new JsonObject { ["id"] = "nobody", ["role"] = "performs" });
        if (probe["machine"]!["area"]?.GetValue<string>() == BeginRecord.Mark)
        {
            probe["machine"]!.AsObject().Remove("area");
        }

        var units = probe["units"]!.AsArray().OfType<JsonObject>().ToList();
        probe["units"] = new JsonArray([
            .. units
                .Where(unit => unit.All(member => member.Value?.ToString() != BeginRecord.Mark))
                .Select(unit =>
                {
                    var bare = unit.DeepClone();
                    bare["entries"] = new JsonArray();
                    return bare;
                }),
        ]);
        return judging.Assess(Encoding.UTF8.GetBytes(probe.ToJsonString())) is AssessOutcome.Judged judged
            ? judged
                .Assessed.Assessment.Findings.Where(finding => finding.Remedy is Remedy.ReadAgain)
                .Select(finding =>
                    (finding.Subject, Read: (finding.Rule, ((Remedy.ReadAgain)finding.Remedy!).Quantity))
                )
                .Where(one => one.Subject is Subject.Unit)
                .GroupBy(one => ((Subject.Unit)one.Subject).Id.Text, one => one.Read, StringComparer.Ordinal)
                .ToDictionary(one => one.Key, one => one.ToList(), StringComparer.Ordinal)
            : [];
    }

    private static JsonArray Entries(
        LimitSheet sheet,
        RuleBook book,
        List<(string Rule, MeasuredQuantity Quantity)> missed,
        BegunGauges gauges
    )
    {
        var found = missed
            .Where(one => IsOfFound(book, one.Rule))
            .Select(one => one.Quantity)
            .ToImmutableSortedSet();
        var left = missed
            .Where(one => !IsOfFound(book, one.Rule))
            .Select(one => one.Quantity)
            .ToImmutableSortedSet();
        return
        [
            .. found.SelectMany(quantity => Of(sheet, quantity, ReadingPhase.Found, gauges)),
            .. left.SelectMany(quantity =>
                Of(sheet, quantity, found.Contains(quantity) ? ReadingPhase.Left : null, gauges)
            ),
        ];
    }

    private static bool IsOfFound(RuleBook book, string rule) =>
        book
            .Packs.SelectMany(pack => pack.Rules)
            .Any(one => one.Id.Text == rule && one.Check is Check.Presence { Phase: RequiredPhase.Found });

    private static IEnumerable<JsonObject> Of(
        LimitSheet sheet,
        MeasuredQuantity quantity,
        ReadingPhase? phase,
        BegunGauges gauges
    )
    {
        var limit = sheet.Of(quantity);
        string?[] stations =
            quantity is MeasuredQuantity.ReelDiameter ? [Words.Of(StationName.Middle)]
            : limit?.LeftStation is null ? [null]
            : [Words.Of(StationName.Left), Words.Of(StationName.Right)];
        foreach (var station in stations)
        {
            foreach (var observed in Observed(quantity, limit))
            {
                var entry = new JsonObject { ["read"] = Words.Of(quantity) };
                if (station is not null)
                {
                    entry["station"] = station;
                }

                if (phase is { } stated)
                {
                    entry["phase"] = Words.Of(stated);
                }

                foreach (var (name, value) in observed)
                {
                    entry[name] = value;
                }

                if (
                    quantity is not (MeasuredQuantity.BearingPlay or MeasuredQuantity.Guards)
                    && gauges.For(quantity) is { } gauge
                )
                {
                    entry["with"] = gauge;
                }

                yield return entry;
            }
        }
    }

    private static IEnumerable<(string Name, JsonNode Value)[]> Observed(
        MeasuredQuantity quantity,
        QuantityLimit? limit
    )
    {
        const string mark = BeginRecord.Mark;
        if (quantity is MeasuredQuantity.Edge)
        {
            return
            [
                [("paper", mark)],
            ];
        }

        if (quantity is MeasuredQuantity.BearingPlay or MeasuredQuantity.Guards)
        {
            return
            [
                [("condition", mark)],
            ];
        }

        if (quantity is not MeasuredQuantity.Clearance)
        {
            return
            [
                [("value", $"{mark} mm")],
            ];
        }

        // What passed is for whoever held the feeler to say, also where the sheet says what should: only its unit is given.
        var unit = limit
            ?.Schools.FirstOrDefault(school => school.School is ContactSchool.AirGap)
            ?.Passes?.Governing.ToString()
            .Split(' ')[^1];
        var feeler = $"{mark} {unit ?? "mm"}";
        return
        [
            [("feeler", feeler), ("passes", true)],
            [("feeler", feeler), ("passes", false)],
        ];
    }
}
