using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Records;

/// <summary>What a job says of itself besides its units: machine, people, photos, sign-off and what follows.</summary>
internal static class JobShapes
{
    private static readonly ObjectShape<MowingTest> Tested = Shape.Object<MowingTest>(
        "mowing-test",
        "How the machine went when it was tried on turf before anything was turned, and what was measured on the turf.",
        o =>
        {
            var ground = o.Optional(
                "groundSpeed",
                Terms.Speed,
                "its ground speed, paced by a stopwatch",
                t => t.GroundSpeed
            );
            var reel = o.Optional(
                "reelSpeed",
                Terms.RotationRate,
                "turns of the reel, measured",
                t => t.ReelSpeed
            );
            var height = o.Optional(
                "effectiveHeight",
                Terms.Size,
                "height of the mown turf, read with a prism",
                t => t.EffectiveHeight
            );
            var wave = o.Optional(
                "wavePitch",
                Terms.Size,
                "a wave on the turf, from tip to tip",
                t => t.WavePitch
            );
            o.Check(
                v =>
                    v.Get(ground) is not null
                    || v.Get(reel) is not null
                    || v.Get(height) is not null
                    || v.Get(wave) is not null,
                ground,
                "nothing is stated",
                "one of groundSpeed, reelSpeed, effectiveHeight and wavePitch, or no `tested`"
            );
            return v => new MowingTest(v.Get(ground), v.Get(reel), v.Get(height), v.Get(wave));
        }
    );

    public static ObjectShape<MachineVisit> Machine { get; } =
        Shape.Object<MachineVisit>(
            "machine-visit",
            "The machine as it stood at the visit.",
            o =>
            {
                var id = o.Required("id", Terms.Id<MachineVisit>(), "which machine", m => m.Id);
                var area = o.Optional("area", Terms.Identity, "the turf area it serves", m => m.Area);
                var hours = o.Optional("hours", Terms.Hours, "its hour meter", m => m.Hours);
                var tested = o.Optional(
                    "tested",
                    Tested,
                    "how it went on turf, where it was tried before anything was turned",
                    m => m.Tested
                );
                return v => new MachineVisit(v.Get(id), v.Get(area), v.Get(hours), v.Get(tested));
            }
        );

    public static ObjectShape<Participant> Person { get; } =
        Shape.Object<Participant>(
            "participant",
            "A person and their part in the job.",
            o =>
            {
                var id = o.Required(
                    "id",
                    RecordNames.NewPerson,
                    "the person's pseudonymous identity",
                    p => p.Id
                );
                var role = o.Required(
                    "role",
                    Shape.Choice<JobRole>("What a person did in this job."),
                    "what the person did in this job",
                    p => p.Role
                );
                return v => new Participant(v.Get(id), v.Get(role));
            }
        );

    public static ObjectShape<RequestedSetting> Requested { get; } =
        Shape.Object<RequestedSetting>(
            "requested-setting",
            "A setting asked for on the job card.",
            o =>
            {
                var quantity = o.Required("quantity", Choices.Quantity, "what is to be set", r => r.Quantity);
                var value = o.Required("value", Terms.Distance, "to what", r => r.Value);
                var by = o.Optional("by", RecordNames.KnownPerson, "who asked for it", r => r.By);
                var card = o.Optional("card", Terms.Title, "what the site calls the card", r => r.Card);
                var order = o.Optional(
                    "order",
                    Terms.Id<SettingOrder>(),
                    "the setting order that it moves away from",
                    r => r.Order
                );
                return v => new RequestedSetting(v.Get(quantity), v.Get(value), v.Get(by))
                {
                    Card = v.Get(card),
                    Order = v.Get(order),
                };
            }
        );

    public static ObjectShape<Photo> Photo { get; } =
        Shape.Object<Photo>(
            "photo",
            "A photo kept elsewhere.",
            o =>
            {
                var hash = o.Required("sha256", Terms.Sha256, "SHA-256 of the file", p => p.Sha256);
                var shows = o.Required("shows", Terms.Sentence, "what it shows", p => p.Shows);
                var unit = o.Optional("unit", RecordNames.KnownUnit, "which unit", p => p.Unit);
                return v => new Photo(v.Get(hash), v.Get(shows), v.Get(unit));
            }
        );

    public static ObjectShape<SignOff> SignOff { get; } =
        Shape.Object<SignOff>(
            "sign-off",
            "Who said the job is done, and when.",
            o =>
            {
                var by = o.Required("by", RecordNames.KnownPerson, "who", s => s.By);
                var at = o.Required("at", Terms.Time, "when", s => s.At);
                return v => new SignOff(v.Get(by), v.Get(at));
            }
        );

    public static ObjectShape<SecondRelease> Release { get; } =
        Shape.Object<SecondRelease>(
            "second-release",
            "A second person lets something unproven go out.",
            o =>
            {
                var by = o.Required(
                    "by",
                    RecordNames.KnownPerson,
                    "who; never a person who did the work",
                    r => r.By
                );
                var at = o.Required("at", Terms.Time, "when", r => r.At);
                var rule = o.Required("rule", Terms.Identity, "which rule's unproven finding", r => r.Rule);
                var unit = o.Optional(
                    "unit",
                    RecordNames.KnownUnit,
                    "on which unit; left out: wherever the rule is unproven in this job",
                    r => r.Unit
                );
                var reason = o.Required(
                    "reason",
                    Terms.Note,
                    "why it may go out all the same",
                    r => r.Reason
                );
                return v => new SecondRelease(v.Get(by), v.Get(at), v.Get(rule), v.Get(unit), v.Get(reason));
            }
        );

    public static ObjectShape<FollowUp> FollowUp { get; } =
        Shape.Object<FollowUp>(
            "follow-up",
            "The re-check after first use.",
            o =>
            {
                var by = o.Required("by", RecordNames.KnownPerson, "who", f => f.By);
                var at = o.Required("at", Terms.Time, "when", f => f.At);
                var result = o.Required("result", Choices.Condition, "what came of it", f => f.Result);
                var note = o.Optional("note", Terms.Note, "anything to add", f => f.Note);
                return v => new FollowUp(v.Get(by), v.Get(at), v.Get(result), v.Get(note));
            }
        );
}
