using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Ledger;

/// <summary>The hold as a document.</summary>
public static class HoldFormat
{
    private static readonly ObjectShape<HoldDocument> Root = Shape.Object<HoldDocument>(
        "hold",
        "What is kept whatever falls due: records that all of what is named fits. Why, and by whom, stands in the entry.",
        o =>
        {
            var record = o.Optional("record", Terms.Identity, "a record", hold => hold.Record);
            var machine = o.Optional("machine", Terms.Identity, "records of a machine", hold => hold.Machine);
            var person = o.Optional(
                "person",
                Terms.Identity,
                "records that name a person",
                hold => hold.Person
            );
            var from = o.Optional("from", Terms.Day, "the first day of jobs", hold => hold.From);
            var until = o.Optional("until", Terms.Day, "the last day of jobs", hold => hold.Until);
            var lifted = o.Defaulted(
                "lifted",
                Shape.Flag,
                false,
                "whether nothing is held any more",
                hold => hold.IsLifted
            );
            return v => new HoldDocument
            {
                Record = v.Get(record),
                Machine = v.Get(machine),
                Person = v.Get(person),
                From = v.Get(from),
                Until = v.Get(until),
                IsLifted = v.Get(lifted),
            };
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<HoldDocument> Current { get; } = new("hold", 1, ReadLimits.Record, Root);
}
