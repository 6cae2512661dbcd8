using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Cases;

/// <summary>Cases beside the rules as a document: `*.cases.json`.</summary>
public static class RuleCasesFormat
{
    private static readonly JsonShape<string> Pointer = Shape.Text(
        1,
        200,
        "(/([^~/\\u0000-\\u001F]|~[01])*)+",
        "a JSON pointer into the fixture",
        "/units/0/entries/3/value"
    );

    private static readonly ObjectShape<PatchStep> StepObject = Shape.Object<PatchStep>(
        "patch-step",
        "One step of a JSON Patch (RFC 6902).",
        o =>
        {
            var operation = o.Required(
                "op",
                Shape.Choice<PatchOperation>("What one step of a patch does."),
                "what it does",
                s => s.Operation
            );
            var path = o.Required("path", Pointer, "where; `-` after a list stands for its end", s => s.Path);
            var from = o.Optional("from", Pointer, "whence, for a move or a copy", s => s.From);
            var value = o.Optional(
                "value",
                Shape.Any,
                "what, for adding, replacing or testing",
                s => s.Value
            );
            o.NeededFor(operation, ["add", "replace", "test"], value);
            o.NeededFor(operation, ["move", "copy"], from);
            return v => new PatchStep(v.Get(operation), v.Get(path), v.Get(from), v.Get(value));
        }
    );

    private static readonly ObjectShape<RuleCase> CaseObject = Shape.Object<RuleCase>(
        "rule-case",
        "A promise about a rule: on this fixture, changed so, it comes out so.",
        o =>
        {
            var rule = o.Required("rule", Terms.Identity, "the rule", c => c.Rule);
            var name = o.Required("name", Terms.Sentence, "what the case shows", c => c.Name);
            var expect = o.Required("expect", VerdictShapes.Verdict, "how the rule comes out", c => c.Expect);
            var effect = o.Optional(
                "effect",
                VerdictShapes.Effect,
                "what that does to its subject; left out: nothing is promised",
                c => c.Effect
            );
            var subject = o.Optional(
                "subject",
                VerdictShapes.Subject,
                "whose verdict; left out: the job, the set or the first unit, as the rule's scope is",
                c => c.Subject
            );
            var from = o.Required("from", Terms.Identity, "the fixture that it starts from", c => c.From);
            var patch = o.Items(
                "patch",
                StepObject,
                FormatLimits.JobParts,
                "what is changed in the record",
                c => c.Patch
            );
            var context = o.Items(
                "context",
                StepObject,
                FormatLimits.JobParts,
                "what is changed in the context",
                c => c.Context
            );
            return v => new RuleCase
            {
                Rule = v.Get(rule),
                Name = v.Get(name),
                Expect = v.Get(expect),
                Effect = v.Get(effect),
                Subject = v.Get(subject),
                From = v.Get(from),
                Patch = v.Get(patch),
                Context = v.Get(context),
            };
        }
    );

    private static readonly ObjectShape<RuleCasesFile> FileObject = Shape.Object<RuleCasesFile>(
        "rule-cases",
        "The cases beside the rules of one topic.",
        o =>
        {
            var fixtures = o.Required(
                "fixtures",
                Terms.Identity,
                "the folder of the fixtures, beside this file",
                f => f.Fixtures
            );
            var cases = o.Required(
                "cases",
                Shape.List(CaseObject, 1, FormatLimits.Cases),
                "the cases",
                f => f.Cases
            );
            return v => new RuleCasesFile(v.Get(fixtures), v.Get(cases));
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<RuleCasesFile> Current { get; } =
        new("rule-cases", 1, ReadLimits.Library, FileObject);
}
