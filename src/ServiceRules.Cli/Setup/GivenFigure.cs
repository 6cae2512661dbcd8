using System.Text.RegularExpressions;
using ServiceRules.Application.Authoring;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Model;

namespace ServiceRules.Cli.Setup;

/// <summary>Figures of a limit sheet as they are given with options.</summary>
internal static partial class GivenFigure
{
    private const string Pair = "0.003 in (0.08 mm)";

    /// <summary><c>0.08 mm</c>, or as printed in both systems <c>0.003 in (0.08 mm)</c>.</summary>
    /// <exception cref="InputException">It cannot be read.</exception>
    public static DualPrint Print(string option, string text)
    {
        var match = Both().Match(text);
        if (!match.Success)
        {
            return DualPrint.Of(Read(option, PrintedLength.Parse(text)));
        }

        var governing = Read(option, PrintedLength.Parse(match.Groups[1].Value));
        return Read(
            option,
            DualPrint.Of(governing, Read(option, PrintedLength.Parse(match.Groups[2].Value)))
        );
    }

    /// <summary><c>clearance upper=0.003 in (0.08 mm)</c>.</summary>
    /// <exception cref="InputException">It cannot be read.</exception>
    public static GivenLimit Limit(string option, string text)
    {
        const string Example = $"clearance upper={Pair}";
        var (name, value) = GivenWord.Pair(option, text, Example);
        var words = name.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length != 2)
        {
            throw new InputException(
                $"{option}: `{name}` is not a quantity and one of its figures; accepted: such as `{Example}`"
            );
        }

        return LimitMembers.Has(words[1])
            ? new(GivenWord.Of<MeasuredQuantity>(option, words[0]), words[1], Print(option, value))
            : throw new InputException(
                $"{option}: `{words[1]}` is no figure of a quantity; accepted: {string.Join(", ", LimitMembers.Names)}"
            );
    }

    /// <summary>What something rests on; a source where it has to have one.</summary>
    /// <exception cref="InputException">It lacks its source.</exception>
    public static Basis Basis(BasisKind kind, string? source, string option) =>
        source is null && kind is (BasisKind.Published or BasisKind.Manual)
            ? throw new InputException(
                $"{option}: what is {FileWord.Of(kind)} names where it stands; accepted: --source TEXT, or --basis with {GivenWord.All<BasisKind>()}"
            )
            : new(kind, source, null);

    private static T Read<T>(string option, Parsed<T> parsed)
        where T : notnull =>
        parsed.TryGet(out var value, out var failure)
            ? value
            : throw new InputException($"{option}: {failure}");

    [GeneratedRegex(@"\A\s*(.+?)\s*\((.+)\)\s*\z")]
    private static partial Regex Both();
}
