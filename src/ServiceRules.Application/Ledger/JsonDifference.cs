using System.Text.Json;
using ServiceRules.Formats.Json;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// What changed between two JSON documents, member by member. In lists the longest run of items that stayed is found
/// first, so that one entry put in between is told as one entry.
/// </summary>
public static class JsonDifference
{
    // Beyond this the table of the search is large for what anyone reads: lists are then compared place by place.
    private const int MostPairs = 4_000_000;

    public static IReadOnlyList<JsonChange> Between(ReadOnlyMemory<byte> before, ReadOnlyMemory<byte> after)
    {
        using var old = JsonDocument.Parse(before);
        using var now = JsonDocument.Parse(after);
        var changes = new List<JsonChange>();
        Compare(JsonPointer.Root, old.RootElement, now.RootElement, changes);
        return changes;
    }

    private static void Compare(JsonPointer at, JsonElement old, JsonElement now, List<JsonChange> changes)
    {
        if (JsonElement.DeepEquals(old, now))
        {
            return;
        }

        switch (old.ValueKind, now.ValueKind)
        {
            case (JsonValueKind.Object, JsonValueKind.Object):
                CompareMembers(at, old, now, changes);
                break;
            case (JsonValueKind.Array, JsonValueKind.Array):
                CompareItems(at, [.. old.EnumerateArray()], [.. now.EnumerateArray()], changes);
                break;
            default:
                changes.Add(new(at.ToString(), Text(old), Text(now)));
                break;
        }
    }

    private static void CompareMembers(
        JsonPointer at,
        JsonElement old,
        JsonElement now,
        List<JsonChange> changes
    )
    {
        foreach (var member in old.EnumerateObject())
        {
            if (now.TryGetProperty(member.Name, out var later))
            {
                Compare(at.Member(member.Name), member.Value, later, changes);
            }
            else
            {
                changes.Add(new(at.Member(member.Name).ToString(), Text(member.Value), null));
            }
        }

        foreach (var member in now.EnumerateObject().Where(one => !old.TryGetProperty(one.Name, out _)))
        {
            changes.Add(new(at.Member(member.Name).ToString(), null, Text(member.Value)));
        }
    }

    private static void CompareItems(
        JsonPointer at,
        JsonElement[] old,
        JsonElement[] now,
        List<JsonChange> changes
    )
    {
        var (from, upTo) = (0, 0);
        foreach (var (oldStop, nowStop) in Kept(old, now).Append((old.Length, now.Length)))
        {
            // Between two items that stayed, what stands at like places is one item changed.
            for (; from < oldStop && upTo < nowStop; from++, upTo++)
            {
                Compare(at.Item(upTo), old[from], now[upTo], changes);
            }

            for (; from < oldStop; from++)
            {
                changes.Add(new(at.Item(from).ToString(), Text(old[from]), null));
            }

            for (; upTo < nowStop; upTo++)
            {
                changes.Add(new(at.Item(upTo).ToString(), null, Text(now[upTo])));
            }

            (from, upTo) = (oldStop + 1, nowStop + 1);
        }
    }

    /// <summary>The places of a longest common subsequence of equal items.</summary>
    private static IEnumerable<(int Old, int Now)> Kept(JsonElement[] old, JsonElement[] now)
    {
        if ((long)old.Length * now.Length > MostPairs)
        {
            for (var at = 0; at < Math.Min(old.Length, now.Length); at++)
            {
                if (JsonElement.DeepEquals(old[at], now[at]))
                {
                    yield return (at, at);
                }
            }

            yield break;
        }

        // length[i][j]: the longest run common to old from i and now from j.
        var length = Enumerable.Range(0, old.Length + 1).Select(_ => new int[now.Length + 1]).ToArray();
        for (var i = old.Length - 1; i >= 0; i--)
        {
            for (var j = now.Length - 1; j >= 0; j--)
            {
                length[i][j] = JsonElement.DeepEquals(old[i], now[j])
                    ? length[i + 1][j + 1] + 1
                    : Math.Max(length[i + 1][j], length[i][j + 1]);
            }
        }

        for (var (i, j) = (0, 0); i < old.Length && j < now.Length; )
        {
            if (JsonElement.DeepEquals(old[i], now[j]))
            {
                yield return (i, j);
                (i, j) = (i + 1, j + 1);
            }
            else if (length[i + 1][j] >= length[i][j + 1])
            {
                i++;
            }
            else
            {
                j++;
            }
        }
    }

    private static string Text(JsonElement value) => value.GetRawText();
}
