using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Evidence.Tests;

/// <summary>Against RFC 8785 and the files published with it; see tests/reference/SOURCES.md, evidence/jcs.</summary>
public sealed class CanonicalJsonPublishedVectorTests
{
    private const int FixedNumberCount = 2168;

    private static readonly string[] NumberFile = ["evidence", "jcs", "es6-numbers-first-10000.csv"];

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
        var hex = ReferenceFiles.ReadText("evidence", "jcs", "outhex", Path.ChangeExtension(name, ".txt"));
        Assert.Equal(
            string.Concat(hex.Where(char.IsAsciiHexDigit)),
            Convert.ToHexStringLower(Encoding.UTF8.GetBytes(actual))
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
            var value = BitConverter.UInt64BitsToDouble(BitsOf(cells[0]));
            if (double.IsFinite(value))
            {
                Assert.Equal(cells[1], Printed(value));
                compared++;
            }
        }

        Assert.Equal(24, compared);
    }

    [Fact]
    public void Canonicalise_NumberFile_PrintsEveryLineAsPublished()
    {
        var lines = ReferenceFiles.ReadRows(NumberFile);

        Assert.Equal(PublishedHash(10_000), ContentHash.Of(ReferenceFiles.ReadBytes(NumberFile)));
        Assert.Equal(lines, lines.Select(line => Line(BitsOf(line))));
    }

    /// <summary>The published stream is a fixed list followed by SHA-256 applied again and again to 32 zero bytes.</summary>
    [Fact]
    public void Canonicalise_NumberStream_HasThePublishedHash()
    {
        var fixedList = ReferenceFiles.ReadRows(NumberFile).Take(FixedNumberCount).Select(BitsOf);
        var stream = fixedList.Concat(HashedNumbers()).Take(100_000);

        var text = new StringBuilder();
        foreach (var bits in stream)
        {
            _ = text.Append(Line(bits)).Append('\n');
        }

        Assert.Equal(PublishedHash(100_000), ContentHash.Of(Encoding.UTF8.GetBytes(text.ToString())));
    }

    private static IEnumerable<ulong> HashedNumbers()
    {
        var block = new byte[SHA256.HashSizeInBytes];
        while (true)
        {
            block = SHA256.HashData(block);
            for (var start = 0; start < block.Length; start += sizeof(ulong))
            {
                var bits = BinaryPrimitives.ReadUInt64LittleEndian(block.AsSpan(start));
                if (double.IsFinite(BitConverter.UInt64BitsToDouble(bits)))
                {
                    yield return bits;
                }
            }
        }
    }

    private static ContentHash PublishedHash(int lineCount)
    {
        var row = ReferenceFiles
            .ReadRows("evidence", "jcs", "es6-number-hashes.csv")
            .Single(row =>
                row.StartsWith(FormattableString.Invariant($"{lineCount},"), StringComparison.Ordinal)
            );
        Assert.True(ContentHash.TryParse("sha256:" + row.Split(',')[2], out var hash));
        return hash;
    }

    private static string Line(ulong bits) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{bits:x},{Printed(BitConverter.UInt64BitsToDouble(bits))}"
        );

    private static ulong BitsOf(string line) =>
        ulong.Parse(line.Split(',')[0], NumberStyles.HexNumber, CultureInfo.InvariantCulture);

    // Seventeen significant digits always read back as the same double.
    private static string Printed(double value) =>
        CanonicalText.Of(value.ToString("E16", CultureInfo.InvariantCulture));
}
