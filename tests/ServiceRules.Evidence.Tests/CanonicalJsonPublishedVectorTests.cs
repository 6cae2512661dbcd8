using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Evidence.Tests;

/// <summary>Against RFC 8785 and the files published with it; see tests/reference/SOURCES.md, evidence/jcs.</summary>
public sealed class CanonicalJsonPublishedVectorTests
{
    // Published beside the number stream: SHA-256 of its first 10,000 lines.
    private const string NumberStreamHash =
        "sha256:b9f7a8e75ef22a835685a52ccba7f7d6bdc99e34b010992cbc5864cd12be6892";

    public static TheoryData<string> PairNames =>
        [
            .. Directory
                .GetFiles(ReferenceFiles.At("evidence", "jcs", "input"))
                .Select(path => Path.GetFileName(path)),
        ];

    [Theory]
    [MemberData(nameof(PairNames))]
    public void Canonicalise_PublishedInput_EqualsPublishedOutput(string name)
    {
        var actual = CanonicalText.Of(ReferenceFiles.ReadBytes("evidence", "jcs", "input", name));

        var expected = ReferenceFiles.ReadText("evidence", "jcs", "output", name);
        Assert.Equal(expected, actual);
        Assert.Equal(
            ReferenceFiles.ReadBytes("evidence", "jcs", "output", name),
            Encoding.UTF8.GetBytes(actual)
        );
    }

    [Fact]
    public void PairNames_Published_AreSix() => Assert.Equal(6, PairNames.Count);

    [Fact]
    public void Canonicalise_AppendixBNumbers_PrintAsTabulated()
    {
        var rows = ReferenceFiles.ReadRows("evidence", "jcs", "rfc8785-appendix-b-numbers.csv").Skip(1);
        var compared = 0;
        foreach (var cells in rows.Select(row => row.Split(',')))
        {
            var value = DoubleOf(cells[0]);
            if (double.IsFinite(value))
            {
                Assert.Equal(cells[1], Printed(value));
                compared++;
            }
        }

        Assert.Equal(24, compared);
    }

    [Fact]
    public void Canonicalise_NumberStream_PrintsEveryLineAsPublished()
    {
        var bytes = ReferenceFiles.ReadBytes("evidence", "jcs", "es6-numbers-first-10000.csv");
        Assert.Equal(NumberStreamHash, "sha256:" + Convert.ToHexStringLower(SHA256.HashData(bytes)));

        var actual = new StringBuilder();
        foreach (
            var line in Encoding.UTF8.GetString(bytes).Split('\n', StringSplitOptions.RemoveEmptyEntries)
        )
        {
            var bits = line[..line.IndexOf(',', StringComparison.Ordinal)];
            _ = actual.Append(bits).Append(',').Append(Printed(DoubleOf(bits))).Append('\n');
        }

        Assert.Equal(Encoding.UTF8.GetString(bytes), actual.ToString());
    }

    private static double DoubleOf(string bits) =>
        BitConverter.UInt64BitsToDouble(
            ulong.Parse(bits, NumberStyles.HexNumber, CultureInfo.InvariantCulture)
        );

    // Seventeen significant digits always read back as the same double.
    private static string Printed(double value) =>
        CanonicalText.Of(value.ToString("E16", CultureInfo.InvariantCulture));
}
