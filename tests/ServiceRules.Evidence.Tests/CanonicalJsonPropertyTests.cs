using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using FsCheck.Xunit;
using ServiceRules.TestKit;

namespace ServiceRules.Evidence.Tests;

public sealed class CanonicalJsonPropertyTests
{
    [Property(MaxTest = 500)]
    public void Canonicalise_AnyTwoSpellingsOfOneTree_GiveTheSameBytesAndHash(int seed)
    {
        var random = new RandomJson(seed);
        var tree = random.Tree();

        var one = CanonicalText.DocumentOf(Encoding.UTF8.GetBytes(random.Spelling(tree)));
        var other = CanonicalText.DocumentOf(Encoding.UTF8.GetBytes(random.Spelling(tree)));

        Assert.Equal(one, other);
        Assert.Equal(one.Hash, ContentHash.Of(other.Bytes.Span));
    }

    [Property(MaxTest = 500)]
    public void Canonicalise_AlreadyCanonical_ChangesNothing(int seed)
    {
        var random = new RandomJson(seed);
        var once = CanonicalText.Of(random.Spelling(random.Tree()));

        Assert.Equal(once, CanonicalText.Of(once));
    }

    [Property(MaxTest = 500)]
    public void Canonicalise_AnyTree_KeepsItsMeaningAndOrdersEveryObject(int seed)
    {
        var random = new RandomJson(seed);
        var tree = random.Tree();
        var canonical = CanonicalText.Of(random.Spelling(tree));

        AssertSame(tree, JsonNode.Parse(canonical));
        using var document = JsonDocument.Parse(canonical);
        AssertOrdered(document.RootElement);
    }

    [Property(MaxTest = 500)]
    public void Canonicalise_ArbitraryBytes_NeverThrows(byte[] bytes)
    {
        _ = CanonicalJson.Canonicalise(bytes);
        _ = CanonicalJson.Canonicalise([(byte)'"', .. bytes, (byte)'"']);
    }

    [Property(MaxTest = 500)]
    public void Canonicalise_DamagedDocument_IsRefusedInsideItOrCanonical(int seed)
    {
        var random = new Random(seed);
        var json = ReferenceFiles.ReadBytes("evidence", "jcs", "input", "weird.json");
        json[random.Next(json.Length)] ^= (byte)(1 << random.Next(8));

        if (CanonicalJson.Canonicalise(json).TryGet(out var document, out var refusal))
        {
            Assert.Equal(document, CanonicalText.DocumentOf(document.Bytes.ToArray()));
        }
        else
        {
            Assert.InRange(refusal.Offset, 0, json.Length);
        }
    }

    private static void AssertSame(JsonNode? expected, JsonNode? actual)
    {
        switch (expected)
        {
            case JsonObject members:
                var found = Assert.IsType<JsonObject>(actual);
                Assert.Equal(members.Count, found.Count);
                Assert.All(members, member => AssertSame(member.Value, found[member.Key]));
                break;
            case JsonArray items:
                var others = Assert.IsType<JsonArray>(actual);
                Assert.Equal(items.Count, others.Count);
                Assert.All(items.Zip(others), pair => AssertSame(pair.First, pair.Second));
                break;
            case JsonValue value when value.TryGetValue(out double number):
                Assert.Equal(number, actual!.GetValue<double>());
                break;
            case JsonValue value when value.TryGetValue(out string? text):
                Assert.Equal(text, actual!.GetValue<string>());
                break;
            default:
                Assert.Equal(expected?.ToJsonString(), actual?.ToJsonString());
                break;
        }
    }

    // Order of UTF-16 code units is order of big-endian UTF-16 bytes.
    private static void AssertOrdered(JsonElement element)
    {
        if (element.ValueKind == JsonValueKind.Object)
        {
            var names = element
                .EnumerateObject()
                .Select(member => Encoding.BigEndianUnicode.GetBytes(member.Name));
            Assert.All(
                names.Zip(names.Skip(1)),
                pair => Assert.True(pair.First.AsSpan().SequenceCompareTo(pair.Second) < 0)
            );
            Assert.All(element.EnumerateObject(), member => AssertOrdered(member.Value));
        }
        else if (element.ValueKind == JsonValueKind.Array)
        {
            Assert.All(element.EnumerateArray(), AssertOrdered);
        }
    }
}
