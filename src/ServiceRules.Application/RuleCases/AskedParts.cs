using ServiceRules.Domain.Records;
using ServiceRules.Engine.Applying;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases;

/// <summary>The parts of when a rule applies, each of which can be left out.</summary>
internal static class AskedParts
{
    private static readonly AskedPart[] SheetParts =
    [
        AskedPart.Sheets,
        AskedPart.Bedknife,
        AskedPart.SheetStates,
    ];

    /// <summary>The parts that a rule asks, in the order in which they are documented.</summary>
    public static IEnumerable<AskedPart> Of(Applicability when) =>
        Enum.GetValues<AskedPart>().Where(part => Asks(when, part));

    /// <summary>The name of the part in the file.</summary>
    public static string Word(AskedPart part) => FileWords.MemberOf(part);

    /// <summary>The same without one part.</summary>
    public static Applicability Without(Applicability when, AskedPart part) =>
        part switch
        {
            AskedPart.From => when with { From = null },
            AskedPart.Until => when with { Until = null },
            AskedPart.Place => when with { Place = null },
            AskedPart.Isolation => when with { Isolation = null },
            AskedPart.Areas => when with { Areas = [] },
            AskedPart.Tasks => when with { Tasks = [], OrRead = [] },
            AskedPart.OrRead => when with { OrRead = [] },
            AskedPart.Sheets => when with { Sheets = [] },
            AskedPart.Bedknife => when with { Bedknife = null },
            AskedPart.Attachments => when with { Attachments = [] },
            AskedPart.School => when with { School = null },
            AskedPart.AnyTurned => when with { AnyTurned = [] },
            AskedPart.AnyRead => when with { AnyRead = [] },
            AskedPart.AnyReadAlong => when with { AnyReadAlong = [] },
            AskedPart.Ground => when with { Ground = null },
            AskedPart.SheetStates => when with { SheetStates = null },
            _ => throw new ArgumentOutOfRangeException(
                nameof(part),
                part,
                "not a part of when a rule applies"
            ),
        };

    /// <summary>
    /// Whether some record by the sheets of a folder could fail this part alone. What is asked of a sheet can only be failed by
    /// a sheet of the folder, one that is all else that is asked of sheets.
    /// </summary>
    public static bool CanFail(Applicability when, AskedPart part, RuleBook book) =>
        part switch
        {
            AskedPart.Sheets or AskedPart.Bedknife or AskedPart.SheetStates => book.Sheets.Any(sheet =>
                SheetParts.All(one => !Asks(when, one) || Holds(when, one, sheet) == (one != part))
            ),
            AskedPart.Tasks => Enum.GetValues<ServiceTask>().Any(task => !when.Tasks.Contains(task)),
            _ => true,
        };

    private static bool Holds(Applicability when, AskedPart part, LimitSheet sheet) =>
        part switch
        {
            AskedPart.Sheets => when.Sheets.Contains(sheet.Id.Text, StringComparer.Ordinal),
            AskedPart.Bedknife => sheet.Bedknife == when.Bedknife,
            _ => sheet.Of(when.SheetStates!.Value) is not null,
        };

    private static bool Asks(Applicability when, AskedPart part) =>
        part switch
        {
            AskedPart.From => when.From is not null,
            AskedPart.Until => when.Until is not null,
            AskedPart.Place => when.Place is not null,
            AskedPart.Isolation => when.Isolation is not null,
            AskedPart.Areas => !when.Areas.IsEmpty,
            AskedPart.Tasks => !when.Tasks.IsEmpty,
            AskedPart.OrRead => !when.OrRead.IsEmpty,
            AskedPart.Sheets => !when.Sheets.IsEmpty,
            AskedPart.Bedknife => when.Bedknife is not null,
            AskedPart.Attachments => !when.Attachments.IsEmpty,
            AskedPart.School => when.School is not null,
            AskedPart.AnyTurned => !when.AnyTurned.IsEmpty,
            AskedPart.AnyRead => !when.AnyRead.IsEmpty,
            AskedPart.AnyReadAlong => !when.AnyReadAlong.IsEmpty,
            AskedPart.Ground => when.Ground is not null,
            _ => when.SheetStates is not null,
        };
}
