using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Json.Shapes;

namespace ServiceRules.Formats.Vocabulary;

/// <summary>How verdicts, and what they speak of, are written in results and in the cases beside the rules.</summary>
internal static class VerdictShapes
{
    private const string UnitPrefix = "unit/";

    public static JsonShape<Verdict> Verdict { get; } =
        Shape.Choice<Verdict>("What one requirement comes to.");

    public static JsonShape<Effect> Effect { get; } =
        Shape.Choice<Effect>("What a finding does to its subject.");

    public static JsonShape<Subject> Subject { get; } =
        Shape
            .Text(
                1,
                UnitPrefix.Length + 64,
                @"job|programme|set|unit/[A-Za-z0-9][A-Za-z0-9._\-]*",
                "`job`, `programme`, `set`, or `unit/` and the identity of a unit",
                "unit/U-02-1"
            )
            .As<string, Subject>(
                text =>
                    text switch
                    {
                        "job" => new Subject.Job(),
                        "set" => new Subject.Set(),
                        "programme" => new Subject.Programme(),
                        _ => new Subject.Unit(new Id<UnitWork>(text[UnitPrefix.Length..])),
                    },
                subject => subject.Key
            );
}
