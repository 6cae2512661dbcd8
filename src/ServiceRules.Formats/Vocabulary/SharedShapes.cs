using ServiceRules.Domain.Quantities;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Vocabulary;

/// <summary>Parts that both limit sheets and rules are made of.</summary>
internal static class SharedShapes
{
    private static readonly ObjectShape<(PrintedLength Governing, PrintedLength Printed)> Pair =
        Shape.Object<(PrintedLength Governing, PrintedLength Printed)>(
            "printed-pair",
            "A length printed in both systems of units: two printed limits, not one number.",
            o =>
            {
                var governing = o.Required(
                    "governing",
                    Terms.Length,
                    "the figure that governs",
                    p => p.Governing
                );
                var printed = o.Required(
                    "printed",
                    Terms.Length,
                    "the figure printed beside it in the other system",
                    p => p.Printed
                );
                return v => (v.Get(governing), v.Get(printed));
            }
        );

    /// <summary>A length as a manual prints it: one figure, or a pair that can be roundings of one length.</summary>
    public static JsonShape<DualPrint> Print { get; } =
        Shape.Either(
            Terms.Length.As(DualPrint.Of, print => print.Governing),
            Pair.AsParsed(ReadPair, print => (print.Governing, print.Alternate!)),
            print => print.Alternate is null
        );

    /// <summary>A printed length of more than nothing.</summary>
    public static JsonShape<DualPrint> PrintedSize { get; } =
        Print.AsParsed(
            print =>
                Terms.Kept(
                    print,
                    print.Governing.Value > Length.Zero,
                    "this is not a size",
                    "a length of more than nothing"
                ),
            print => print
        );

    /// <summary>What a rule or limit rests on.</summary>
    public static ObjectShape<Basis> Basis { get; } =
        Shape.Object<Basis>(
            "basis",
            "What a rule or limit rests on.",
            o =>
            {
                var kind = o.Required(
                    "kind",
                    Shape.Choice<BasisKind>("Kinds of ground."),
                    "what kind of ground it is",
                    b => b.Kind
                );
                var source = o.Optional(
                    "source",
                    Terms.Sentence,
                    "title, body and year of a published source, or the register id of a document",
                    b => b.Source
                );
                var clause = o.Optional("clause", Terms.Sentence, "clause or page", b => b.Clause);
                o.NeededFor(kind, ["published", "manual"], source);
                o.Needs(clause, source);
                return v => new Basis(v.Get(kind), v.Get(source), v.Get(clause));
            }
        );

    private static Parsed<DualPrint> ReadPair((PrintedLength Governing, PrintedLength Printed) pair) =>
        DualPrint.Of(pair.Governing, pair.Printed).TryGet(out DualPrint? print, out ParseFailure? failure)
            ? Terms.Kept(
                print,
                print.Agreement is not PrintAgreement.Disagrees,
                "these figures cannot be roundings of one length",
                $"a second figure that rounds the same length as `{pair.Governing}`"
            )
            : Parsed<DualPrint>.Refused(failure);
}
