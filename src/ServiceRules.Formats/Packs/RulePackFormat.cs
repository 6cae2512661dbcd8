using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Sheets;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Packs;

/// <summary>
/// A rule pack as documents: a folder with one head, `pack.json`, and its rules by topic, `*.rules.json`; and all that
/// is in force as one document, which is what a digest and a report carry.
/// </summary>
public static class RulePackFormat
{
    private static readonly ObjectShape<RulePack> HeadObject = Shape.Object<RulePack>(
        "rule-pack-head",
        "What a pack is called and which layer it belongs to; its rules stand in the files beside this one.",
        o =>
        {
            PackHead head = new(o);
            return v => head.Build(v, []);
        }
    );

    private static readonly ObjectShape<RulePack> PackObject = Shape.Object<RulePack>(
        "rule-pack",
        "A versioned set of rules of one layer.",
        o =>
        {
            PackHead head = new(o);
            var rules = o.Required(
                "rules",
                Shape.List(RuleShapes.Rule, 0, FormatLimits.Rules),
                "its rules",
                p => p.Rules
            );
            var citations = o.Items(
                "citations",
                CitationShapes.Citation,
                FormatLimits.Rules,
                "where its jurisdiction's texts ask what rules ask",
                p => p.Citations
            );
            return v => head.Build(v, v.Get(rules)) with { Citations = v.Get(citations) };
        }
    );

    private static readonly ObjectShape<RulesFile> RulesObject = Shape.Object<RulesFile>(
        "rules-file",
        "Rules of one topic.",
        o =>
        {
            var rules = o.Required(
                "rules",
                Shape.List(RuleShapes.NewRule, 1, FormatLimits.Rules),
                "the rules",
                f => f.Rules
            );
            return v => new RulesFile(v.Get(rules));
        }
    );

    private static readonly ObjectShape<CitationsFile> CitationsObject = Shape.Object<CitationsFile>(
        "citations-file",
        "Where the texts of one jurisdiction ask what rules ask.",
        o =>
        {
            var citations = o.Required(
                "citations",
                Shape.List(CitationShapes.Citation, 1, FormatLimits.Rules),
                "the citations",
                f => f.Citations
            );
            return v => new CitationsFile(v.Get(citations));
        }
    );

    private static readonly ObjectShape<RuleBook> BookObject = Shape.Object<RuleBook>(
        "rule-book",
        "Everything that judges a record besides its context: packs in the order of their layers, and limit sheets.",
        o =>
        {
            var packs = o.Required(
                "packs",
                Shape.List(PackObject, 0, FormatLimits.Words),
                "the packs",
                b => b.Packs
            );
            var sheets = o.Required(
                "sheets",
                Shape.List(LimitSheetShapes.Sheet, 0, FormatLimits.Rules),
                "the limit sheets",
                b => b.Sheets
            );
            return v => new RuleBook(v.Get(packs), v.Get(sheets));
        }
    );

    /// <summary>`pack.json`: a pack without its rules.</summary>
    public static DocumentFormat<RulePack> Head { get; } = new("rule-pack", 1, ReadLimits.Record, HeadObject);

    /// <summary>`*.rules.json`: the rules of one topic.</summary>
    public static DocumentFormat<RulesFile> Rules { get; } = new("rules", 1, ReadLimits.Library, RulesObject);

    /// <summary>`*.citations.json`: where the texts of one jurisdiction ask what rules ask.</summary>
    public static DocumentFormat<CitationsFile> Citations { get; } =
        new("citations", 1, ReadLimits.Library, CitationsObject);

    /// <summary>All packs and sheets in force as one document.</summary>
    public static DocumentFormat<RuleBook> Book { get; } =
        new("rule-book", 1, ReadLimits.Library, BookObject);
}
