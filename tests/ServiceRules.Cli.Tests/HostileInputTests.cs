using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>Files that no shop wrote: refused with a reason, quickly, in little memory, and never a crash.</summary>
public sealed class HostileInputTests : IDisposable
{
    private const string Good = "full-service-125";

    private static readonly Dictionary<string, byte[]> Contents = new(StringComparer.Ordinal)
    {
        { "empty", [] },
        { "white space", Utf8(" \n\t ") },
        { "null", Utf8("null") },
        { "a number", Utf8("1e999999999") },
        { "a text", Utf8("\"service-record/1\"") },
        { "not JSON", Utf8("PK\u0003\u0004") },
        { "zeros", new byte[4096] },
        { "UTF-16", Encoding.Unicode.GetBytes(Fixtures.Text(Good)) },
        { "another format", Utf8("{\"format\": \"limit-sheet/1\"}") },
        { "a later version", Utf8("{\"format\": \"service-record/2\"}") },
        { "trailing text", [.. Fixtures.Bytes(Good), (byte)'}'] },
        { "two documents", [.. Fixtures.Bytes(Good), .. Fixtures.Bytes(Good)] },
        { "a comment", [.. Utf8("/* a job */"), .. Fixtures.Bytes(Good)] },
        { "a comma too many", Changed("\"tasks\": [\"full-service\"]", "\"tasks\": [\"full-service\",]") },
        { "a name twice", Changed("\"date\":", "\"date\": \"2026-04-12\", \"date\":") },
        { "a name twice, once escaped", Changed("\"date\":", "\"d\\u0061te\": \"2026-04-12\", \"date\":") },
        { "a lone surrogate", Changed("\"F-full-service-125\"", "\"\\ud800\"") },
        { "a null member", Changed("\"date\":", "\"place\": null, \"date\":") },
        { "a control character", Changed("F-full-service-125", "F-full\u0001service") },
        { "terminal escapes", Changed("F-full-service-125", "\\u001b[2J\\u001b]0;x\\u0007") },
        {
            "terminal escapes in a name",
            Changed("\"tasks\":", "\"\\u001b[2J\\u001b]0;x\\u0007\": 1, \"tasks\":")
        },
        { "a huge number", Changed("\"640.0 h\"", "\"" + new string('9', 3000) + " h\"") },
        { "a number beyond decimals", Changed("\"640.0 h\"", "\"" + new string('9', 30) + " h\"") },
        { "a far year", Changed("\"date\": \"2026-04-13\"", "\"date\": \"9999-12-31\"") },
        { "an early year", Changed("\"date\": \"2026-04-13\"", "\"date\": \"0001-01-01\"") },
        { "no such day", Changed("\"date\": \"2026-04-13\"", "\"date\": \"2026-02-30\"") },
        { "lists within lists", Utf8(new string('[', 1_000_000)) },
        { "objects within objects", Utf8(string.Concat(Enumerable.Repeat("{\"a\":", 300_000))) },
        {
            "one huge text",
            Utf8("{\"format\": \"service-record/1\", \"id\": \"" + new string('a', 1_900_000) + "\"}")
        },
        {
            "one huge name",
            Utf8("{\"format\": \"service-record/1\", \"" + new string('a', 1_900_000) + "\": 1}")
        },
        { "very many values", Utf8("[" + string.Join(',', Enumerable.Repeat("0", 900_000)) + "]") },
        {
            "very many names",
            Utf8(
                "{\"format\": \"service-record/1\""
                    + string.Concat(Enumerable.Range(0, 90_000).Select(n => $",\"a{n}\":0"))
                    + "}"
            )
        },
        {
            "very many faults",
            Utf8(
                "{\"format\": \"service-record/1\", \"tasks\": ["
                    + string.Join(',', Enumerable.Repeat("{}", 90_000))
                    + "]}"
            )
        },
    };

    public static TheoryData<string> Files => new(Contents.Keys);

    private readonly Product _product = new Product().Alone();

    public void Dispose() => _product.Dispose();

    [Theory]
    [MemberData(nameof(Files))]
    public void Check_HostileFile_IsRefusedWithAReason(string what)
    {
        var outcome = _product.Run("check", _product.Write($"{what}.json", Contents[what]));

        Manners.HoldForRefusal(outcome);
        Assert.All(outcome.Complaints, line => Assert.InRange(line.Length, 1, 2_000));
        Assert.InRange(outcome.Complaints.Count, 1, 101);
        Assert.DoesNotContain(
            outcome.StandardError,
            character => char.IsControl(character) && character != '\n'
        );
    }

    [Theory]
    [InlineData((byte)' ')]
    [InlineData((byte)'{')]
    [InlineData((byte)0xff)]
    public void Check_FiftyMegabytes_AreRefusedBySize(byte fill)
    {
        var path = _product.At("large.json");
        var block = new byte[1024 * 1024];
        Array.Fill(block, fill);
        using (var file = File.Create(path))
        {
            for (var count = 0; count < 50; count++)
            {
                file.Write(block);
            }
        }

        var outcome = _product.Run("check", path);

        Manners.HoldForRefusal(outcome);
        Assert.Contains("too large", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_FileCutAnywhere_IsRefusedAtEveryByte()
    {
        var whole = Encoding.UTF8.GetBytes(Fixtures.Text(Good).TrimEnd());
        var cuts = Enumerable
            .Range(0, 300)
            .Select(step => step * (whole.Length - 1) / 299)
            .Distinct()
            .ToList();

        var outcome = RunOnAll(cuts.Select(cut => ($"cut-{cut:D6}.json", whole[..cut])));

        Assert.Equal(2, outcome.ExitCode);
        Assert.Empty(outcome.StandardOutput);
        Assert.All(
            cuts,
            cut =>
                Assert.Contains(
                    FormattableString.Invariant($"cut-{cut:D6}.json: line "),
                    outcome.StandardError,
                    StringComparison.Ordinal
                )
        );
    }

    [Fact]
    public void Check_BytesThatAreNoUtf8_AreRefusedWhereverTheyStand()
    {
        var whole = Fixtures.Bytes(Good);
        var places = Enumerable
            .Range(0, 100)
            .Select(step => step * (whole.Length - 1) / 99)
            .Distinct()
            .ToList();

        var outcome = RunOnAll(
            places.Select(place =>
                ($"utf8-{place:D6}.json", (byte[])[.. whole[..place], 0xc3, 0x28, .. whole[place..]])
            )
        );

        Assert.Equal(2, outcome.ExitCode);
        Assert.Empty(outcome.StandardOutput);
    }

    [Fact]
    public void Check_OneByteChangedAnywhere_NeverFailsTheTool()
    {
        var whole = Fixtures.Bytes(Good);
        byte[] others = [.. "0\"{}[],:-. a"u8];

        RunOnAll(
            Enumerable
                .Range(0, 400)
                .Select(step =>
                {
                    var changed = (byte[])whole.Clone();
                    changed[(step * 9_973) % whole.Length] = others[step % others.Length];
                    return ($"changed-{step:D4}.json", changed);
                })
        );
    }

    private ProductOutcome RunOnAll(IEnumerable<(string Name, byte[] Content)> files)
    {
        string[] paths = [.. files.Select(file => _product.Write(file.Name, file.Content))];
        var outcome = _product.Run(["check", .. paths]);
        Assert.True(outcome.ExitCode is 0 or 1 or 2, outcome.ToString());
        Assert.True(Manners.IsFreeOfStackTraces(outcome), outcome.ToString());
        return outcome;
    }

    private static byte[] Changed(string from, string to) => Fixtures.Changed(Good, (from, to));

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);
}
