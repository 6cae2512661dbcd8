using System.Globalization;
using System.Text;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Library;

/// <summary>
/// Folders that no shop wrote: refused with a place and a reason, within bounds of files, bytes, rules and messages, and
/// never by an exception.
/// </summary>
public sealed class HostileFolderTests : IDisposable
{
    private const string Extra = "base/extra.rules.json";
    private const string Clearance = "base/clearance.rules.json";
    private const string Small = "sheets/reel-125-9-510.sheet.json";
    private const string Sheet = "sheets/reel-200-6-760.sheet.json";

    private static readonly Dictionary<
        string,
        (Action<SpoiltFolder> Spoil, string Code, string File)
    > Hostile = new(StringComparer.Ordinal)
    {
        ["lists within lists"] = (Text(Extra, new string('[', 1_000_000)), "document.depth", Extra),
        ["objects within objects"] = (
            Text(Extra, string.Concat(Enumerable.Repeat("{\"a\":", 300_000))),
            "document.depth",
            Extra
        ),
        ["one huge name"] = (
            Text(Extra, "{\"format\": \"rules/1\", \"" + new string('a', 4_000_000) + "\": 1}"),
            "name.unknown",
            Extra
        ),
        ["very many values"] = (
            Text(
                Extra,
                "{\"format\": \"rules/1\", \"rules\": ["
                    + string.Join(',', Enumerable.Repeat("0", 900_000))
                    + "]}"
            ),
            "document.values",
            Extra
        ),
        ["very many faults"] = (
            Text(
                Extra,
                "{\"format\": \"rules/1\", \"rules\": ["
                    + string.Join(',', Enumerable.Repeat("{}", 400))
                    + "]}"
            ),
            DiagnosticCode.TooMuch,
            Extra
        ),
        ["more bytes than a file has"] = (Sized(Extra, 9), "document.size", Extra),
        ["a member twice"] = (
            Replaced(Sheet, "\"blades\": 6,", "\"blades\": 6, \"bl\\u0061des\": 8,"),
            "name.duplicate",
            Sheet
        ),
        ["an identity twice in a file"] = (
            Replaced(Clearance, "\"id\": \"clearance-left\"", "\"id\": \"clearance-found\""),
            "reference.duplicate",
            Clearance
        ),
        ["an identity twice in two files"] = (Copied(Clearance, Extra), DiagnosticCode.RuleTwice, Extra),
        ["what voids what in a circle"] = (
            Replaced(
                Small,
                "{ \"adjuster\": \"groomer\" },",
                "{ \"adjuster\": \"groomer\", \"disturbs\": [{ \"quantity\": \"height-of-cut\" }] },"
            ),
            DiagnosticCode.DisturbanceLoop,
            Small
        ),
        ["limits the wrong way round"] = (
            Replaced(Sheet, "\"lower\": \"8 mm\"", "\"lower\": \"80 mm\""),
            "value.contradiction",
            Sheet
        ),
        ["UTF-16"] = (
            Bytes(Extra, [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes("{}")]),
            "document.encoding",
            Extra
        ),
        ["bytes that are no UTF-8"] = (
            Bytes(Extra, [.. "{\"format\": \"rules/1\", \"rules\": [\""u8, 0xc3, 0x28, .. "\"]}"u8]),
            "document.encoding",
            Extra
        ),
        ["terminal escapes in a name"] = (
            Text(Extra, "{\"format\": \"rules/1\", \"\\u001b[2J\": 1, \"rules\": []}"),
            "name.unknown",
            Extra
        ),
        ["a link back into the folder"] = (
            folder => Directory.CreateSymbolicLink(folder.At("base/again"), folder.Root),
            DiagnosticCode.FileNotRead,
            "base/again"
        ),
        ["a link to itself"] = (
            folder => File.CreateSymbolicLink(folder.At(Extra), folder.At(Extra)),
            DiagnosticCode.FileNotRead,
            Extra
        ),
        ["a link to a device"] = (
            folder => File.CreateSymbolicLink(folder.At(Extra), "/dev/zero"),
            DiagnosticCode.FileNotRead,
            Extra
        ),
        ["a pipe"] = (
            folder => Assert.Equal(0, Tool.Require("mkfifo").Run(folder.At(Extra)).ExitCode),
            DiagnosticCode.CannotBeRead,
            Extra
        ),
        ["a folder with the name of a file"] = (
            folder => Directory.CreateDirectory(folder.At(Extra)),
            DiagnosticCode.FileNotRead,
            Extra
        ),
        ["a file too far down"] = (
            folder =>
            {
                Directory.CreateDirectory(folder.At("base/a/b/c/d"));
                File.WriteAllText(folder.At("base/a/b/c/d/x.rules.json"), "{}");
            },
            DiagnosticCode.FileNotRead,
            "base/a/b/c/d/x.rules.json"
        ),
        ["ten thousand files"] = (folder => Many(folder, 10_000, ".json"), DiagnosticCode.TooMuch, ""),
        ["more files of any kind than a folder has"] = (
            folder => Many(folder, 20_001, ".txt"),
            DiagnosticCode.TooMuch,
            ""
        ),
        ["more bytes than a folder has"] = (
            folder =>
            {
                for (int at = 0; at < 10; at++)
                {
                    Sized(string.Create(CultureInfo.InvariantCulture, $"base/{at}.rules.json"), 8)(folder);
                }
            },
            DiagnosticCode.TooMuch,
            ""
        ),
        ["more rules than a folder has"] = (
            folder =>
            {
                for (int at = 0; at < 5; at++)
                {
                    Rules(folder, at);
                }
            },
            DiagnosticCode.TooMuch,
            ""
        ),
    };

    private readonly SpoiltFolder folder = new();

    public static TheoryData<string> Names => [.. Hostile.Keys];

    public void Dispose() => folder.Dispose();

    [Theory]
    [MemberData(nameof(Names))]
    public void Load_HostileFolder_IsToldWithItsPlace(string what)
    {
        var (spoil, code, file) = Hostile[what];
        spoil(folder);

        var loaded = folder.Load();

        Assert.False(loaded.IsSound);
        Assert.Contains((code, file), loaded.Diagnostics.Select(one => (one.Code, one.File)));
        Assert.InRange(loaded.Diagnostics.Length, 1, 1_200);
        Assert.All(loaded.Diagnostics, one => Assert.InRange(one.ToString().Length, 1, 4_000));
        Assert.All(
            loaded.Diagnostics,
            one => Assert.DoesNotContain("Exception", one.ToString(), StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Load_ByteOrderMark_IsSkipped()
    {
        byte[] text = File.ReadAllBytes(folder.At(Sheet));
        File.WriteAllBytes(folder.At(Sheet), [.. Encoding.UTF8.GetPreamble(), .. text]);

        Assert.True(folder.Load().IsSound);
    }

    private static Action<SpoiltFolder> Text(string file, string text) =>
        folder => File.WriteAllText(folder.At(file), text);

    private static Action<SpoiltFolder> Bytes(string file, byte[] bytes) =>
        folder => File.WriteAllBytes(folder.At(file), bytes);

    private static Action<SpoiltFolder> Replaced(string file, string text, string by) =>
        folder => folder.Replace(file, text, by);

    private static Action<SpoiltFolder> Copied(string from, string to) =>
        folder => File.Copy(folder.At(from), folder.At(to));

    private static Action<SpoiltFolder> Sized(string file, int mebibytes) =>
        folder =>
        {
            using FileStream large = File.Create(folder.At(file));
            large.SetLength(mebibytes * 1024L * 1024L);
        };

    private static void Many(SpoiltFolder folder, int count, string ending)
    {
        Directory.CreateDirectory(folder.At("many"));
        for (int at = 0; at < count; at++)
        {
            using FileStream empty = File.Create(
                folder.At(string.Create(CultureInfo.InvariantCulture, $"many/{at}{ending}"))
            );
        }
    }

    private static void Rules(SpoiltFolder folder, int file)
    {
        StringBuilder rules = new("{ \"format\": \"rules/1\", \"rules\": [");
        for (int at = 0; at < 450; at++)
        {
            rules.Append(
                CultureInfo.InvariantCulture,
                $$"""
                {{(
                    at == 0 ? "" : ","
                )}}{ "id": "r-{{file}}-{{at}}", "title": "a", "requirement": "a", "scope": "job",
                "check": { "kind": "protection" }, "severity": "hold", "basis": { "kind": "duty" }, "advice": "a" }
                """
            );
        }

        File.WriteAllText(
            folder.At(string.Create(CultureInfo.InvariantCulture, $"base/many-{file}.rules.json")),
            rules + "] }"
        );
    }
}
