using System.Text.Json.Nodes;
using ServiceRules.Application.Beginning;

namespace ServiceRules.Host.Pages.Bench;

/// <summary>
/// A job that is filled in over time. What is filled in so far can be filed as an open job; what is still to be filled in goes on behind it,
/// since an open job only grows at its ends.
/// </summary>
internal static class OpenJob
{
    private const string Mark = BeginRecord.Mark;

    // Lists of a record of which each item is filled in by itself.
    private static readonly string[] Steps = ["timeline", "photos", "releases"];

    // What an entry or a step is, whatever was read there and whenever it was done.
    private static readonly string[] Key = ["read", "station", "passes", "event", "source", "position"];

    /// <summary>The record with what is filled in, and without its sign-off: what is filed is open.</summary>
    public static JsonObject Filled(JsonObject record)
    {
        var filled = record.DeepClone().AsObject();
        // It would close the job.
        filled.Remove("signOff");
        foreach (var list in Steps.Select(name => filled[name]).OfType<JsonArray>())
        {
            RemoveWhere(list, HasMark);
        }

        if (filled["machine"] is JsonObject machine)
        {
            RemoveMarked(machine);
        }

        if (filled["units"] is JsonArray units)
        {
            RemoveWhere(
                units,
                unit =>
                    unit is JsonObject members
                    && members.Any(member => member.Key != "entries" && HasMark(member.Value))
            );
            foreach (
                var entries in units.OfType<JsonObject>().Select(unit => unit["entries"]).OfType<JsonArray>()
            )
            {
                RemoveWhere(entries, HasMark);
            }
        }

        if (filled["instruments"] is JsonArray gauges)
        {
            RemoveWhere(
                gauges,
                gauge => gauge is JsonObject one && (IsMark(one["id"]) || IsMark(one["kind"]))
            );
            foreach (var gauge in gauges.OfType<JsonObject>())
            {
                RemoveMarked(gauge);
            }
        }

        return filled;
    }

    /// <summary>A record that is filed, with what of another is still to be filled in behind what stands in it.</summary>
    /// <param name="filed">As it is filed.</param>
    /// <param name="begun">The same job with what is to be filled in.</param>
    public static JsonObject Continued(JsonObject filed, JsonObject begun)
    {
        var whole = filed.DeepClone().AsObject();
        if (whole["machine"] is JsonObject machine && begun["machine"] is JsonObject asked)
        {
            AddMarked(machine, asked);
        }

        Follow(whole, begun, "timeline");
        foreach (var unit in List(whole, "units").OfType<JsonObject>())
        {
            if (Same(begun["units"], unit) is { } more)
            {
                Follow(unit, more, "entries");
            }
        }

        // Units of which nothing but their place was known.
        foreach (var unit in Items(begun["units"]).Where(unit => IsMark(unit["id"])))
        {
            List(whole, "units").Add(unit.DeepClone());
        }

        Gauges(whole, begun);
        if (!whole.ContainsKey("signOff") && begun["signOff"] is { } signOff)
        {
            whole["signOff"] = signOff.DeepClone();
        }

        return whole;
    }

    /// <summary>A record with the readings and the gauges of another, at units of which nothing was read or asked for yet.</summary>
    public static JsonObject WithReadings(JsonObject record, JsonObject asked)
    {
        var whole = record.DeepClone().AsObject();
        foreach (var unit in Items(whole["units"]).Where(unit => Items(unit["entries"]).Count == 0))
        {
            if (Same(asked["units"], unit) is { } more)
            {
                Follow(unit, more, "entries");
            }
        }

        Gauges(whole, asked);
        return whole;
    }

    // Those that what is still to be read names, and what is still to be told of those that are there.
    private static void Gauges(JsonObject whole, JsonObject begun)
    {
        var named = List(whole, "units")
            .OfType<JsonObject>()
            .SelectMany(unit => Items(unit["entries"]))
            .Select(entry => entry["with"]?.ToString())
            .ToHashSet(StringComparer.Ordinal);
        foreach (var gauge in Items(begun["instruments"]))
        {
            if (Same(whole["instruments"], gauge) is { } there)
            {
                AddMarked(there, gauge);
            }
            else if (named.Contains(gauge["id"]?.ToString()))
            {
                List(whole, "instruments").Add(gauge.DeepClone());
            }
        }
    }

    // Each that stands already takes the place of one that was asked for.
    private static void Follow(JsonObject stands, JsonObject asked, string name)
    {
        var there = Items(stands[name]);
        var items = Items(asked[name]);
        foreach (var item in items.Where(item => !HasMark(item)))
        {
            _ = RemoveFirst(there, one => JsonNode.DeepEquals(one, item));
        }

        foreach (var item in items.Where(HasMark))
        {
            if (!RemoveFirst(there, one => IsFor(one, item)))
            {
                List(stands, name).Add(item.DeepClone());
            }
        }
    }

    // A reading need not say as what it was read.
    private static bool IsFor(JsonObject stands, JsonObject asked) =>
        Key.All(name => JsonNode.DeepEquals(stands[name], asked[name]))
        && (
            stands["phase"] is not { } phase
            || asked["phase"] is not { } wanted
            || JsonNode.DeepEquals(phase, wanted)
        );

    private static bool RemoveFirst(List<JsonObject> list, Predicate<JsonObject> isMeant)
    {
        var at = list.FindIndex(isMeant);
        if (at < 0)
        {
            return false;
        }

        list.RemoveAt(at);
        return true;
    }

    private static void AddMarked(JsonObject stands, JsonObject asked)
    {
        foreach (var (name, value) in asked)
        {
            if (!stands.ContainsKey(name) && HasMark(value))
            {
                stands[name] = value!.DeepClone();
            }
        }
    }

    private static void RemoveMarked(JsonObject holder)
    {
        foreach (
            var name in holder.Where(member => HasMark(member.Value)).Select(member => member.Key).ToList()
        )
        {
            holder.Remove(name);
        }
    }

    private static void RemoveWhere(JsonArray list, Func<JsonNode?, bool> isOut)
    {
        for (var at = list.Count - 1; at >= 0; at--)
        {
            if (isOut(list[at]))
            {
                list.RemoveAt(at);
            }
        }
    }

    private static JsonObject? Same(JsonNode? list, JsonObject item) =>
        Items(list).FirstOrDefault(one => JsonNode.DeepEquals(one["id"], item["id"]));

    private static JsonArray List(JsonObject holder, string name)
    {
        if (holder[name] is not JsonArray list)
        {
            holder[name] = list = [];
        }

        return list;
    }

    private static List<JsonObject> Items(JsonNode? list) =>
        [.. (list as JsonArray ?? []).OfType<JsonObject>()];

    /// <summary>Whether something of it is still to be filled in.</summary>
    public static bool HasMark(JsonNode? node) =>
        node switch
        {
            JsonObject members => members.Any(member => HasMark(member.Value)),
            JsonArray items => items.Any(HasMark),
            _ => IsMark(node),
        };

    // `?` alone, before a unit, or in the place of an hour.
    private static bool IsMark(JsonNode? node) =>
        node is JsonValue value
        && value.TryGetValue<string>(out var text)
        && (
            text == Mark
            || text.StartsWith(Mark + " ", StringComparison.Ordinal)
            || text.Contains($"T{Mark}{Mark}:", StringComparison.Ordinal)
        );
}
