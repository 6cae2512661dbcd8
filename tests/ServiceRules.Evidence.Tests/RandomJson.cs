using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;

namespace ServiceRules.Evidence.Tests;

/// <summary>Random JSON trees, and random spellings of one tree; everything follows from the seed.</summary>
internal sealed class RandomJson(int seed)
{
    private const int DepthMax = 5;

    // Escapes, controls, text that looks alike, and names whose UTF-8 order differs from their UTF-16 order.
    private static readonly string[] Letters =
    [
        .. new[]
        {
            "a",
            "b",
            "B",
            "0",
            "/",
            "\"",
            "\\",
            "\b",
            "\t",
            "\n",
            "\f",
            "\r",
            "\u0000",
            "\u001f",
            "\u007f",
        },
        .. new[]
        {
            "\u0080",
            "\u00e9",
            "e\u0301",
            "\u2028",
            "\u20ac",
            "\ue000",
            "\ufb33",
            "\uffff",
            "\U0001f600",
        },
    ];

    private static readonly double[] Numbers =
    [
        0,
        -0.0,
        1,
        -1,
        0.1,
        1e21,
        1e20,
        1e-6,
        1e-7,
        5e-324,
        1.5e300,
        1e23,
    ];

    private readonly Random _random = new(seed);

    public JsonNode? Tree(int depth = 0) =>
        _random.Next(depth < DepthMax ? 9 : 6) switch
        {
            0 => null,
            1 => JsonValue.Create(_random.Next(2) == 0),
            2 => JsonValue.Create(Numbers[_random.Next(Numbers.Length)]),
            3 => JsonValue.Create(_random.NextDouble() * Math.Pow(10, _random.Next(-30, 30))),
            4 or 5 => JsonValue.Create(Text()),
            6 => new JsonArray([.. Enumerable.Range(0, _random.Next(5)).Select(_ => Tree(depth + 1))]),
            _ => new JsonObject(Names().Select(name => KeyValuePair.Create(name, Tree(depth + 1)))),
        };

    public string Spelling(JsonNode? tree)
    {
        var text = new StringBuilder();
        Spell(tree, text);
        return text.ToString();
    }

    private string[] Names() => [.. Enumerable.Range(0, _random.Next(7)).Select(_ => Text()).Distinct()];

    private string Text() =>
        string.Concat(
            Enumerable.Range(0, _random.Next(4)).Select(_ => Letters[_random.Next(Letters.Length)])
        );

    private void Spell(JsonNode? node, StringBuilder text)
    {
        Space(text);
        switch (node)
        {
            case JsonObject members:
                var shuffled = members.ToArray();
                _random.Shuffle(shuffled);
                SpellAll(shuffled, '{', '}', text, member => SpellMember(member, text));
                break;
            case JsonArray items:
                SpellAll([.. items], '[', ']', text, item => Spell(item, text));
                break;
            case JsonValue value when value.TryGetValue(out string? content):
                SpellString(content, text);
                break;
            case JsonValue value when value.TryGetValue(out double number):
                _ = text.Append(
                    number.ToString(_random.Next(2) == 0 ? "R" : "E16", CultureInfo.InvariantCulture)
                );
                break;
            default:
                _ = text.Append(node?.ToJsonString() ?? "null");
                break;
        }

        Space(text);
    }

    private static void SpellAll<T>(T[] parts, char open, char close, StringBuilder text, Action<T> spell)
    {
        _ = text.Append(open);
        for (var index = 0; index < parts.Length; index++)
        {
            _ = index > 0 ? text.Append(',') : text;
            spell(parts[index]);
        }

        _ = text.Append(close);
    }

    private void SpellMember(KeyValuePair<string, JsonNode?> member, StringBuilder text)
    {
        Space(text);
        SpellString(member.Key, text);
        Space(text);
        _ = text.Append(':');
        Spell(member.Value, text);
    }

    private void SpellString(string content, StringBuilder text)
    {
        _ = text.Append('"');
        var escapeAll = _random.Next(3) == 0;
        foreach (var unit in content)
        {
            var mustEscape = unit is < ' ' or '"' or '\\';
            _ =
                mustEscape || escapeAll
                    ? text.Append(CultureInfo.InvariantCulture, $"\\u{(int)unit:X4}")
                    : text.Append(unit);
        }

        _ = text.Append('"');
    }

    private void Space(StringBuilder text) =>
        _ = _random.Next(4) == 0 ? text.Append(" \t\r\n".AsSpan(_random.Next(4), 1)) : text;
}
