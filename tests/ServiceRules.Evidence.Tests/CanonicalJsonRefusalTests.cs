using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Evidence.Tests;

public sealed class CanonicalJsonRefusalTests
{
    [Theory]
    [InlineData("""{"a":1,"b":2,"a":3}""", CanonicalRefusalReason.DuplicateName, 13)]
    [InlineData("""{"x":{"a":1,"\u0061":2}}""", CanonicalRefusalReason.DuplicateName, 12)]
    [InlineData("""["\ud800"]""", CanonicalRefusalReason.LoneSurrogate, 1)]
    [InlineData("""["\udc00\ud800"]""", CanonicalRefusalReason.LoneSurrogate, 1)]
    [InlineData("""{"\ud83d":0}""", CanonicalRefusalReason.LoneSurrogate, 1)]
    [InlineData("[0,1e400]", CanonicalRefusalReason.NumberNotFinite, 3)]
    [InlineData("-1e309", CanonicalRefusalReason.NumberNotFinite, 0)]
    [InlineData("NaN", CanonicalRefusalReason.NotJson, 0)]
    [InlineData("{} {}", CanonicalRefusalReason.NotJson, 3)]
    [InlineData("{}\n[1,]", CanonicalRefusalReason.NotJson, 3)]
    [InlineData("", CanonicalRefusalReason.NotJson, 0)]
    [InlineData("\ufeff{}", CanonicalRefusalReason.NotJson, 0)]
    [InlineData("[1 /* one */]", CanonicalRefusalReason.NotJson, 3)]
    public void Canonicalise_NoSingleMeaning_RefusedWithReasonAndPlace(
        string json,
        CanonicalRefusalReason reason,
        int offset
    )
    {
        var refusal = RefusalOf(Encoding.UTF8.GetBytes(json));

        Assert.Equal((reason, offset), (refusal.Reason, refusal.Offset));
    }

    [Theory]
    [InlineData(new byte[] { 0x22, 0x61, 0xff, 0x22 }, 2)]
    [InlineData(new byte[] { 0x22, 0xed, 0xa0, 0x80, 0x22 }, 1)]
    [InlineData(new byte[] { 0x22, 0xc0, 0x80, 0x22 }, 1)]
    [InlineData(new byte[] { 0x22, 0xe2, 0x82 }, 1)]
    public void Canonicalise_InvalidUtf8_RefusedAtTheFirstBadByte(byte[] json, int offset)
    {
        var refusal = RefusalOf(json);

        Assert.Equal((CanonicalRefusalReason.InvalidUtf8, offset), (refusal.Reason, refusal.Offset));
    }

    [Theory]
    [InlineData('[', ']')]
    [InlineData('{', '}')]
    public void Canonicalise_DepthAtTheLimit_AcceptedAndOneMoreRefused(char open, char close)
    {
        var atLimit = Nested(open, close, CanonicalJson.MaxDepth);
        Assert.Equal(atLimit, CanonicalText.Of(atLimit));

        var refusal = RefusalOf(Encoding.UTF8.GetBytes(Nested(open, close, CanonicalJson.MaxDepth + 1)));
        Assert.Equal(CanonicalRefusalReason.TooDeep, refusal.Reason);
        Assert.Contains("nested 65 deep", refusal.Found, StringComparison.Ordinal);
    }

    [Fact]
    public void Canonicalise_SizeAtTheLimit_AcceptedAndOneMoreRefused()
    {
        var json = new byte[CanonicalJson.MaxBytes + 1];
        json.AsSpan().Fill((byte)' ');
        json[0] = (byte)'1';

        Assert.True(CanonicalJson.Canonicalise(json.AsSpan(0, CanonicalJson.MaxBytes)).TryGet(out _, out _));
        Assert.Equal(CanonicalRefusalReason.TooLarge, RefusalOf(json).Reason);
    }

    [Fact]
    public void Canonicalise_LongDuplicateName_IsQuotedShortened()
    {
        var name = new string('n', 10_000);

        var refusal = RefusalOf(Encoding.UTF8.GetBytes($$"""{"{{name}}":1,"{{name}}":2}"""));

        Assert.InRange(refusal.ToString().Length, 80, 200);
    }

    [Fact]
    public void ToString_Refusal_SaysWhereWhatAndWhatIsAccepted() =>
        Assert.Equal(
            "byte 7: a second member `a` in one object; accepted: each name once",
            RefusalOf("""{"a":1,"a":2}"""u8.ToArray()).ToString()
        );

    /// <summary>The published parsing suite: y must parse, n must not, i is the reader's choice.</summary>
    [Fact]
    public void Canonicalise_PublishedParsingSuite_AcceptsAndRefusesAsRequired()
    {
        var wrong = new List<string>();
        var seen = 0;
        foreach (var cells in ReferenceFiles.ReadRows("evidence", "json-parsing", "index.csv").Skip(1))
        {
            var file = cells[..cells.IndexOf(',', StringComparison.Ordinal)];
            var json = ReferenceFiles.ReadBytes("evidence", "json-parsing", "test_parsing", file);
            var accepted = CanonicalJson.Canonicalise(json).TryGet(out _, out var refusal);

            // Two of the suite's valid texts repeat a name, which RFC 8785 forbids on top of RFC 8259.
            var expected =
                file[0] == 'y' && !file.StartsWith("y_object_duplicated_key", StringComparison.Ordinal);
            if (file[0] != 'i' && accepted != expected)
            {
                wrong.Add($"{file}: {refusal?.ToString() ?? "accepted"}");
            }

            seen++;
        }

        Assert.Empty(wrong);
        Assert.Equal(318, seen);
    }

    private static CanonicalRefusal RefusalOf(byte[] json)
    {
        Assert.False(CanonicalJson.Canonicalise(json).TryGet(out _, out var refusal));
        return refusal!;
    }

    private static string Nested(char open, char close, int depth)
    {
        var inner = open == '{' ? "{\"a\":" : "[";
        return string.Concat(Enumerable.Repeat(inner, depth - 1)) + open + new string(close, depth);
    }
}
