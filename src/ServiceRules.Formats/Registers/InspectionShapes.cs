using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>What people vouch for beside a procedure: its inspection, and tasks approved on the live machine.</summary>
internal static class InspectionShapes
{
    private static readonly ObjectShape<InspectionFinding> Finding = Shape.Object<InspectionFinding>(
        "inspection-finding",
        "Something that a periodic inspection found wrong.",
        o =>
        {
            var id = o.Required("id", Terms.Identity, "its name in the certificate", f => f.Id);
            var about = o.Optional(
                "about",
                Terms.Id<Participant>(),
                "the person whose work it is about; left out: about the procedure",
                f => f.About
            );
            var raised = o.Required("raised", Terms.Day, "when it was found", f => f.Raised);
            var due = o.Optional("due", Terms.Day, "until when it is to be put right", f => f.Due);
            var closed = o.Optional(
                "closed",
                Terms.Day,
                "when it was put right; left out: it is open",
                f => f.Closed
            );
            o.Check(
                v => v.Get(closed) is not { } end || v.Get(raised) <= end,
                closed,
                "closed before it was raised",
                "`raised` or later"
            );
            return v => new InspectionFinding(
                v.Get(id),
                v.Get(about),
                v.Get(raised),
                v.Get(due),
                v.Get(closed)
            );
        }
    );

    public static ObjectShape<ProcedureInspection> Inspection { get; } =
        Shape.Object<ProcedureInspection>(
            "procedure-inspection",
            "The certificate of a periodic inspection; what is left out it does not state.",
            o =>
            {
                var on = o.Required("on", Terms.Day, "the day of the inspection", i => i.On);
                var inspector = o.Optional(
                    "inspector",
                    Terms.Id<Participant>(),
                    "who inspected",
                    i => i.Inspector
                );
                var machine = o.Optional(
                    "machine",
                    Terms.Id<MachineVisit>(),
                    "on which machine the procedure was seen in use",
                    i => i.Machine
                );
                var people = o.Items(
                    "people",
                    Terms.Id<Participant>(),
                    FormatLimits.Register,
                    "the people with whom their duties were gone through",
                    i => i.People
                );
                var users = o.Items(
                    "users",
                    Terms.Id<Participant>(),
                    FormatLimits.Register,
                    "the people who use the procedure",
                    i => i.Users
                );
                var tags = o.Defaulted(
                    "tagLimitsReviewed",
                    Shape.Flag,
                    false,
                    "whether the limits of tags were gone through as well",
                    i => i.TagLimitsReviewed
                );
                var findings = o.Items(
                    "findings",
                    Finding,
                    FormatLimits.Words,
                    "what was found wrong",
                    i => i.Findings
                );
                return v => new ProcedureInspection(
                    v.Get(on),
                    v.Get(inspector),
                    v.Get(machine),
                    v.Get(people),
                    v.Get(users),
                    v.Get(tags),
                    v.Get(findings)
                );
            }
        );

    public static ObjectShape<EnergisedTask> Energised { get; } =
        Shape.Object<EnergisedTask>(
            "energised-task",
            "A task that cannot be done on a dead machine, with the measures that stand in for isolation.",
            o =>
            {
                var task = o.Required("task", Choices.Task, "which task", t => t.Task);
                var approved = o.Optional(
                    "approvedBy",
                    Terms.Id<Participant>(),
                    "who approved it; left out: nobody did",
                    t => t.ApprovedBy
                );
                var measures = o.Items(
                    "measures",
                    Choices.Measure,
                    FormatLimits.Words,
                    "what must be in place before the machine is started",
                    t => t.Measures
                );
                var stop = o.Required(
                    "stop",
                    Terms.Sentence,
                    "which stop makes the adjuster touchable",
                    t => t.Stop
                );
                var control = o.Optional(
                    "adjusterControl",
                    Terms.Sentence,
                    "which control allows the adjuster to be turned from outside the danger zone; left out: never while it runs",
                    t => t.AdjusterControl
                );
                var longest = o.Optional(
                    "longestMinutes",
                    Shape.Whole(1, 24 * 60),
                    "longest run at a time, in minutes",
                    t => t.LongestMinutes
                );
                var operators = o.Items(
                    "operators",
                    Terms.Id<Participant>(),
                    FormatLimits.Words,
                    "who may run the machine for it; left out: any authorised person",
                    t => t.Operators
                );
                return v => new EnergisedTask(
                    v.Get(task),
                    v.Get(approved),
                    v.Get(measures),
                    v.Get(stop),
                    v.Get(control),
                    v.Get(longest)
                )
                {
                    Operators = v.Get(operators),
                };
            }
        );
}
