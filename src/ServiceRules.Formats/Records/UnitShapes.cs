using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Records;

/// <summary>One cutting unit in a job.</summary>
internal static class UnitShapes
{
    public static ObjectShape<UnitWork> Unit { get; } =
        Shape.Object<UnitWork>(
            "unit-work",
            "One cutting unit in a job: who it is, and what was read and done, in order.",
            o =>
            {
                var id = o.Required("id", RecordNames.NewUnit, "the frame's identity", u => u.Id);
                var reel = o.Optional("reel", Terms.Identity, "identity of the reel", u => u.Reel);
                var bedknife = o.Optional(
                    "bedknife",
                    Terms.Identity,
                    "identity of the bedknife",
                    u => u.Bedknife
                );
                var position = o.Optional(
                    "position",
                    Shape.Whole(1, FormatLimits.Units),
                    "place on the machine, counted from the left; left out on the bench",
                    u => u.Position
                );
                var sheet = o.Required(
                    "sheet",
                    Terms.Identity,
                    "the limit sheet it is held to",
                    u => u.Sheet
                );
                var attachments = o.Items(
                    "attachments",
                    Choices.Attachment,
                    FormatLimits.Words,
                    "what is fitted to it",
                    u => u.Attachments
                );
                var tasks = o.Items(
                    "tasks",
                    Choices.Task,
                    FormatLimits.Words,
                    "tasks of this unit where they differ from the job's",
                    u => u.Tasks
                );
                var entries = o.Items(
                    "entries",
                    BenchShapes.Entry,
                    FormatLimits.Entries,
                    "what was read and done, in the order it happened",
                    u => u.Entries
                );
                return v => new UnitWork
                {
                    Id = v.Get(id),
                    Reel = v.Get(reel),
                    Bedknife = v.Get(bedknife),
                    Position = v.Get(position),
                    Sheet = v.Get(sheet),
                    Attachments = v.Get(attachments),
                    Tasks = v.Get(tasks),
                    Entries = v.Get(entries),
                };
            }
        );
}
