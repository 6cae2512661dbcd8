using System.Globalization;
using System.Text;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Records;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Library.Diagnostics;

/// <summary>
/// `docs/diagnostics.md` shows every code with a text that earns it, the message as it is printed, and a text that does not.
/// Both are made in a copy of the shipped rules and loaded. `SERVICERULES_ACCEPT=1 dotnet test` writes the page anew.
/// </summary>
public sealed class DiagnosticsPageTests : IDisposable
{
    private static readonly DateOnly Today = new(2026, 11, 26);

    /// <summary>No document of today has lists or names of this kind; the names are kept for those that will.</summary>
    private static readonly string[] ToldOfNoDocument = [ProblemCode.ListRepeats, ProblemCode.NamePattern];

    private static readonly DiagnosticExample[] Examples =
    [
        .. RuleExamples
            .All.Concat(SheetExamples.All)
            .Concat(FolderExamples.All)
            .OrderBy(one => one.Code, StringComparer.Ordinal),
        .. DocumentExamples.All,
    ];

    private readonly Dictionary<string, byte[]?> kept = new(StringComparer.Ordinal);
    private readonly SpoiltFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Page_EveryCode_HasASection() =>
        Assert.Equal(
            Codes(typeof(DiagnosticCode)).Concat(Codes(typeof(ProblemCode))).Except(ToldOfNoDocument).Order(),
            Examples.Select(one => one.Code).Order()
        );

    [Fact]
    public void Page_Examples_AreAsTheToolTellsThem()
    {
        StringBuilder page = new(Head());
        List<string> wrong = [];
        foreach (DiagnosticExample example in Examples)
        {
            Diagnostic[] bad = Told(example, isBad: true);
            Diagnostic[] good = Told(example, isBad: false);
            string code = example.ToldAs ?? example.Code;
            Diagnostic? told = Array.Find(bad, one => one.Code == code);
            if (told is null || Array.Exists(good, one => one.Code == code && one.File == told.File))
            {
                wrong.Add(
                    $"{example.Code}: bad {string.Join("\n", bad.Take(3))}; good {string.Join("\n", good.Take(3))}"
                );
                continue;
            }

            Section(page, example, told);
        }

        Assert.Equal([], wrong);
        Page("diagnostics.md", page.ToString());
    }

    /// <summary>The page in the repository is the one that these examples make.</summary>
    private static void Page(string name, string text)
    {
        string path = Path.Combine(ReferenceFiles.Root, "docs", name);
        if (TestRun.IsAccepting)
        {
            File.WriteAllText(path, text);
        }

        Assert.Equal(File.Exists(path) ? File.ReadAllText(path) : "", text);
    }

    private Diagnostic[] Told(DiagnosticExample example, bool isBad)
    {
        Restore();
        example.Make(folder, isBad);
        if (example.File.EndsWith(".record.json", StringComparison.Ordinal))
        {
            RecordFormat
                .Current.Read(File.ReadAllBytes(folder.At(example.File)))
                .TryGet(out _, out ProblemReport problems);
            return [.. problems.Told.Select(problem => Shown(problem, example.File))];
        }

        // Notices that the shipped sheets earn are no one example's.
        return
        [
            .. RuleFolder
                .Load(isBad ? folder.At(example.Folder) : folder.Root, Today)
                .Diagnostics.Where(one =>
                    one.Code != DiagnosticCode.PrintsFarApart || example.Code == one.Code
                )
                .Where(one => one.File.Length == 0 || !Baseline.Contains(one.What)),
        ];
    }

    private static readonly HashSet<string> Baseline =
    [
        .. RuleFolder.Load(ReferenceFiles.InRepository("rules"), Today).Diagnostics.Select(one => one.What),
    ];

    private static Diagnostic Shown(Problem problem, string file) =>
        new()
        {
            Code = problem.Code,
            Level = DiagnosticLevel.Error,
            File = file,
            Pointer = problem.Pointer,
            Line = problem.Line,
            Column = problem.Column,
            What = problem.What + (problem.Found.Length > 0 ? $"; found `{problem.Found}`" : ""),
            Right = problem.Accepted,
        };

    /// <summary>Every file of the copy as it was shipped, and no other.</summary>
    private void Restore()
    {
        if (kept.Count == 0)
        {
            foreach (string file in Directory.GetFiles(folder.Root, "*", SearchOption.AllDirectories))
            {
                kept[file] = File.ReadAllBytes(file);
            }
        }

        foreach (string file in Directory.GetFiles(folder.Root, "*", SearchOption.AllDirectories))
        {
            if (!kept.ContainsKey(file))
            {
                File.Delete(file);
            }
        }

        foreach ((string file, byte[]? bytes) in kept)
        {
            if (
                !File.Exists(file)
                || new FileInfo(file).Length != bytes!.Length
                || !File.ReadAllBytes(file).AsSpan().SequenceEqual(bytes)
            )
            {
                File.WriteAllBytes(file, bytes!);
            }
        }
    }

    private void Section(StringBuilder page, DiagnosticExample example, Diagnostic told)
    {
        string level = told.Level is DiagnosticLevel.Notice ? " Notice: the rules load all the same." : "";
        page.Append(
            CultureInfo.InvariantCulture,
            $"\n## {example.Code}\n\n**{Summary(example.Code)}** {example.Why}{level}\n"
        );
        string place = example.File.Length > 0 ? $", in `{example.File}`" : "";
        Block(page, $"Bad{place}:", example.Bad, example.Language);
        if (example.ToldAs is { } other)
        {
            page.Append(
                CultureInfo.InvariantCulture,
                $"\nThe reader of the file sees it first and tells it as `{other}`; `{example.Code}` is told of what a program hands over.\n"
            );
        }

        Block(
            page,
            "Told:",
            told.ToString().Replace(folder.Root + "/", "", StringComparison.Ordinal),
            "text"
        );
        Block(page, "Good:", example.Good, example.Language);
    }

    private static void Block(StringBuilder page, string head, string text, string language) =>
        page.Append(CultureInfo.InvariantCulture, $"\n{head}\n\n```{language}\n{text}\n```\n");

    private static string Head()
    {
        StringBuilder head = new(
            """
            # Diagnostics

            What `servicerules rules check` tells, one section for each code: why it matters, a text that earns it, the message as it
            is printed, and a text that does not. Codes are stable, sentences may change. An error keeps the rules from judging
            anything; a notice does not. Each message names the file, line, column and place (a JSON pointer), what is wrong, and what
            would be right. The examples are changes of the rules shipped in `rules/`; a test makes each of them and holds this page
            to what is told. Codes that begin with `SR` are about the folder as a whole, the others about one document, whatever it is.

            | code | what |
            |---|---|

            """
        );
        foreach (DiagnosticExample example in Examples)
        {
            string anchor = example.Code.Replace(".", "", StringComparison.Ordinal).ToLowerInvariant();
            head.Append(
                CultureInfo.InvariantCulture,
                $"| [{example.Code}](#{anchor}) | {Summary(example.Code)} |\n"
            );
        }

        return head.ToString();
    }

    private static string Summary(string code)
    {
        foreach (Type holder in (Type[])[typeof(DiagnosticCode), typeof(ProblemCode)])
        {
            if (
                Array.Find(holder.GetFields(), field => (string)field.GetRawConstantValue()! == code) is
                { } constant
            )
            {
                return WrittenSummary.Of(holder, constant.Name);
            }
        }

        throw new ArgumentOutOfRangeException(nameof(code), code, "not a code");
    }

    private static IEnumerable<string> Codes(Type holder) =>
        holder.GetFields().Select(field => (string)field.GetRawConstantValue()!);
}
