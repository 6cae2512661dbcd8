using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Packs;

/// <summary>The check kinds with their parameters, each an object told apart by its `kind`.</summary>
internal static class CheckShapes
{
    public static JsonShape<Check> Check { get; } =
        Shape.Variant(
            "check",
            "One typed check with its parameters.",
            "kind",
            Shape.Case<Check, Check.LimitOnQuantity>("limit-on-quantity", LimitOnQuantity()),
            Shape.Case<Check, Check.ProceduralLimit>(
                "procedural-limit",
                OfQuantity<Check.ProceduralLimit>(
                    "The procedure of the school in force was followed at every station, and nothing was turned after.",
                    c => c.Quantity,
                    quantity => new(quantity)
                )
            ),
            Shape.Case<Check, Check.Contact>(
                "contact",
                OfQuantity<Check.Contact>(
                    "Contact, heard and felt as left, is what the school in force asks; no feeler is asked for.",
                    c => c.Quantity,
                    quantity => new(quantity)
                )
            ),
            Shape.Case<Check, Check.Spread>("spread", Spread()),
            Shape.Case<Check, Check.Parallelism>("parallelism", Parallelism()),
            Shape.Case<Check, Check.ReelForm>(
                "reel-form",
                OfWord<Check.ReelForm, ReelFormOf>(
                    "Taper or barrel of the reel, from its diameters as left.",
                    c => c.Of,
                    of => new(of)
                )
            ),
            Shape.Case<Check, Check.Twist>(
                "twist",
                Shape.Object<Check.Twist>(
                    "twist",
                    "Twist of the two rollers, from the gaps under their corners on the plate.",
                    _ => _ => new Check.Twist()
                )
            ),
            Shape.Case<Check, Check.Relation>("relation", Relation()),
            Shape.Case<Check, Check.Clip>("clip", Clip()),
            Shape.Case<Check, Check.WavePitch>(
                "wave-pitch",
                Shape.Object<Check.WavePitch>(
                    "wave-pitch",
                    "No wave was measured on the turf; where one was, which part printed it.",
                    _ => _ => new Check.WavePitch()
                )
            ),
            Shape.Case<Check, Check.OrderOfWork>("order-of-work", OrderOfWork()),
            Shape.Case<Check, Check.RequiredEvent>("required-event", RequiredEvent()),
            Shape.Case<Check, Check.OrderOfEvents>("order-of-events", OrderOfEvents()),
            Shape.Case<Check, Check.Protection>(
                "protection",
                Shape.Object<Check.Protection>(
                    "protection",
                    "Everyone works only inside their own protected interval.",
                    _ => _ => new Check.Protection()
                )
            ),
            Shape.Case<Check, Check.EnergyControl>(
                "energy-control",
                OfWord<Check.EnergyControl, EnergyDuty>(
                    "A duty of controlling energy was met.",
                    c => c.Of,
                    of => new(of)
                )
            ),
            Shape.Case<Check, Check.Recency>(
                "recency",
                OfWord<Check.Recency, RecencyOf>(
                    "Something has not run out on the day of the job.",
                    c => c.Of,
                    of => new(of)
                )
            ),
            Shape.Case<Check, Check.Credibility>(
                "credibility",
                OfWord<Check.Credibility, CredibilityOf>(
                    "The record's own times and entries are credible.",
                    c => c.Of,
                    of => new(of)
                )
            ),
            Shape.Case<Check, Check.Freshness>(
                "freshness",
                OfQuantity<Check.Freshness>(
                    "Nothing that disturbs the quantity was turned after its last reading.",
                    c => c.Quantity,
                    quantity => new(quantity)
                )
            ),
            Shape.Case<Check, Check.StepObtained>(
                "step-obtained",
                OfQuantity<Check.StepObtained>(
                    "The steps that were turned moved the quantity by what the sheet says of a step.",
                    c => c.Quantity,
                    quantity => new(quantity)
                )
            ),
            Shape.Case<Check, Check.Presence>("presence", Presence()),
            Shape.Case<Check, Check.SoundCondition>(
                "sound-condition",
                OfQuantity<Check.SoundCondition>(
                    "A condition judged by eye or hand is sound, as left.",
                    c => c.Quantity,
                    quantity => new(quantity)
                )
            ),
            Shape.Case<Check, Check.RecordPart>("record-part", RecordPart())
        );

    private static ObjectShape<Check.LimitOnQuantity> LimitOnQuantity() =>
        Shape.Object<Check.LimitOnQuantity>(
            "limit-on-quantity",
            "A quantity, as left, against its limits.",
            o =>
            {
                var quantity = o.Required("quantity", Choices.Quantity, "the quantity", c => c.Quantity);
                var against = o.Required(
                    "against",
                    Shape.Choice<LimitSource>("Where a zone comes from."),
                    "where the zone comes from",
                    c => c.Against
                );
                var where = o.Required(
                    "where",
                    Shape.Choice<CheckedPlaces>("At which places a limit must hold."),
                    "at which places it must hold",
                    c => c.Where
                );
                return v => new(v.Get(quantity), v.Get(against), v.Get(where));
            }
        );

    private static ObjectShape<Check.Spread> Spread() =>
        Shape.Object<Check.Spread>(
            "spread",
            "Spread of a quantity, as left.",
            o =>
            {
                var quantity = o.Required("quantity", Choices.Quantity, "the quantity", c => c.Quantity);
                var across = o.Required(
                    "across",
                    Shape.Choice<SpreadAcross>("Across what a spread is taken."),
                    "across what it is taken",
                    c => c.Across
                );
                return v => new(v.Get(quantity), v.Get(across));
            }
        );

    private static ObjectShape<Check.Parallelism> Parallelism() =>
        Shape.Object<Check.Parallelism>(
            "parallelism",
            "Range of the distances from the datum line, over the width.",
            o =>
            {
                var quantity = o.Required("quantity", Choices.Quantity, "the quantity", c => c.Quantity);
                var datum = o.Required(
                    "datum",
                    Shape.Choice<DatumMethod>("How a datum line is fitted."),
                    "how the datum line is fitted",
                    c => c.Datum
                );
                return v => new(v.Get(quantity), v.Get(datum));
            }
        );

    private static ObjectShape<Check.Relation> Relation() =>
        Shape.Object<Check.Relation>(
            "relation",
            "One quantity against another, as left.",
            o =>
            {
                var quantity = o.Required(
                    "quantity",
                    Choices.Quantity,
                    "the quantity judged",
                    c => c.Quantity
                );
                var how = o.Required(
                    "how",
                    Shape.Choice<QuantityRelation>("How one quantity must stand to another."),
                    "how it must stand",
                    c => c.How
                );
                var other = o.Required("other", Choices.Quantity, "to which", c => c.Other);
                var allowance = o.Required(
                    "allowance",
                    SharedShapes.Print,
                    "what is allowed",
                    c => c.Allowance
                );
                o.Check(
                    v => v.Get(quantity) != v.Get(other),
                    other,
                    "a quantity always equals itself",
                    "another quantity"
                );
                return v => new(v.Get(quantity), v.Get(how), v.Get(other), v.Get(allowance));
            }
        );

    private static ObjectShape<Check.Clip> Clip() =>
        Shape.Object<Check.Clip>(
            "clip",
            "Clip spacing is at most so many times the height of cut, as left.",
            o =>
            {
                var ratio = o.Required(
                    "ratio",
                    Shape.Number(0.1m, 5m),
                    "largest permitted spacing as a multiple of the height",
                    c => c.Ratio
                );
                return v => new(v.Get(ratio));
            }
        );

    private static ObjectShape<Check.OrderOfWork> OrderOfWork() =>
        Shape.Object<Check.OrderOfWork>(
            "order-of-work",
            "Adjustments of the unit come in this order; kinds not listed may stand anywhere.",
            o =>
            {
                var order = o.Required(
                    "order",
                    Shape.List(Choices.Adjuster, 2, FormatLimits.Words),
                    "first to last",
                    c => c.Order
                );
                return v => new(v.Get(order));
            }
        );

    private static ObjectShape<Check.RequiredEvent> RequiredEvent() =>
        Shape.Object<Check.RequiredEvent>(
            "required-event",
            "An event stands in the timeline for each that needs one.",
            o =>
            {
                var events = o.Required(
                    "events",
                    Shape.List(Choices.Event, 1, FormatLimits.Words),
                    "any one of these will do",
                    c => c.Events
                );
                var per = o.Required(
                    "per",
                    Shape.Choice<RequiredPer>("For each of what a step is required."),
                    "for each of what",
                    c => c.Per
                );
                var when = o.Required(
                    "when",
                    Shape.Choice<RequiredWhen>("Where in the timeline a step must stand."),
                    "where it must stand",
                    c => c.When
                );
                var needs = o.Optional(
                    "needs",
                    Shape.Choice<MachineNeed>("A control or kind of source that a machine may have."),
                    "only where the machine has this; left out: always",
                    c => c.Needs
                );
                var by = o.Optional(
                    "by",
                    Choices.PersonAsked,
                    "what is asked of whoever made it; left out: nothing",
                    c => c.By
                );
                return v => new(v.Get(events), v.Get(per), v.Get(when), v.Get(needs)) { By = v.Get(by) };
            }
        );

    private static ObjectShape<Check.OrderOfEvents> OrderOfEvents() =>
        Shape.Object<Check.OrderOfEvents>(
            "order-of-events",
            "Events stand in this order, where they are present, before each person's work.",
            o =>
            {
                var order = o.Required(
                    "order",
                    Shape.List(Choices.Event, 2, FormatLimits.Words),
                    "first to last",
                    c => c.Order
                );
                return v => new(v.Get(order));
            }
        );

    private static ObjectShape<Check.Presence> Presence() =>
        Shape.Object<Check.Presence>(
            "presence",
            "A reading of the quantity is there.",
            o =>
            {
                var quantity = o.Required("quantity", Choices.Quantity, "the quantity", c => c.Quantity);
                var phase = o.Required(
                    "phase",
                    Shape.Choice<RequiredPhase>("Which phase of reading must be there."),
                    "as found or as left",
                    c => c.Phase
                );
                var places = o.Required(
                    "places",
                    Shape.Choice<RequiredPlaces>("At which places a reading must be there."),
                    "at which places",
                    c => c.Places
                );
                return v => new(v.Get(quantity), v.Get(phase), v.Get(places));
            }
        );

    private static ObjectShape<Check.RecordPart> RecordPart() =>
        Shape.Object<Check.RecordPart>(
            "record-part",
            "A part of the record is there.",
            o =>
            {
                var part = o.Required(
                    "part",
                    Shape.Choice<RequiredPart>("Parts of a record that may be required."),
                    "which part",
                    c => c.Part
                );
                var by = o.Optional(
                    "by",
                    Choices.PersonAsked,
                    "of a sign-off, what is asked of whoever signs; left out: nothing",
                    c => c.By
                );
                o.Check(
                    v => v.Get(by) is null || v.Get(part) == RequiredPart.SignOff,
                    by,
                    "nobody signs for this part",
                    "`by` with `sign-off` only"
                );
                return v => new(v.Get(part)) { By = v.Get(by) };
            }
        );

    private static ObjectShape<TCheck> OfQuantity<TCheck>(
        string description,
        Func<TCheck, MeasuredQuantity> quantityOf,
        Func<MeasuredQuantity, TCheck> build
    )
        where TCheck : Check =>
        Shape.Object<TCheck>(
            Shape.WordOf(typeof(TCheck).Name, '-'),
            description,
            o =>
            {
                var quantity = o.Required("quantity", Choices.Quantity, "the quantity", quantityOf);
                return v => build(v.Get(quantity));
            }
        );

    private static ObjectShape<TCheck> OfWord<TCheck, TWord>(
        string description,
        Func<TCheck, TWord> wordOf,
        Func<TWord, TCheck> build
    )
        where TCheck : Check
        where TWord : struct, Enum =>
        Shape.Object<TCheck>(
            Shape.WordOf(typeof(TCheck).Name, '-'),
            description,
            o =>
            {
                var of = o.Required("of", Shape.Choice<TWord>(description), "of what", wordOf);
                return v => build(v.Get(of));
            }
        );
}
