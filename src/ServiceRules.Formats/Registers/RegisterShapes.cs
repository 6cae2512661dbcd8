using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>People, locks, instruments and waivers.</summary>
internal static class RegisterShapes
{
    public static ObjectShape<RegisteredPerson> Person { get; } =
        Shape.Object<RegisteredPerson>(
            "registered-person",
            "A person in the site's register.",
            o =>
            {
                var id = o.Required(
                    "id",
                    Terms.NewId<Participant>("person"),
                    "pseudonymous identity",
                    p => p.Id
                );
                var authorised = o.Required(
                    "authorised",
                    Shape.Flag,
                    "whether the person may lock out and work on machines",
                    p => p.Authorised
                );
                var trained = o.Optional(
                    "trainedOn",
                    Terms.Day,
                    "date of the training it rests on",
                    p => p.TrainedOn
                );
                var until = o.Optional(
                    "trainedUntil",
                    Terms.Day,
                    "until when it holds; left out: no end stated",
                    p => p.TrainedUntil
                );
                var release = o.Defaulted(
                    "mayRelease",
                    Shape.Flag,
                    false,
                    "whether the person may release what others left unproven, and waive a rule",
                    p => p.MayRelease
                );
                var employer = o.Defaulted(
                    "employer",
                    Shape.Choice<Employer>("For whom a person works."),
                    Employer.Site,
                    "for whom the person works",
                    p => p.Employer
                );
                var crew = o.Optional("crew", Terms.Identity, "the crew the person belongs to", p => p.Crew);
                var covers = o.Optional(
                    "covers",
                    Shape.List(SourceShapes.Name, 0, FormatLimits.Words),
                    "the sources that the training covers; left out: not stated",
                    p => p.StatesCovers ? p.Covers : (ImmutableArray<Id<EnergySource>>?)null
                );
                var tags = o.Optional(
                    "tagLimitsOn",
                    Terms.Day,
                    "when the person was taught the limits of tags",
                    p => p.TagLimitsOn
                );
                var instructed = o.Optional(
                    "instructedOn",
                    Terms.Day,
                    "when an affected person was told what lockout is and to leave it alone",
                    p => p.InstructedOn
                );
                var left = o.Optional(
                    "left",
                    Terms.Day,
                    "last day with the site, of somebody who has left; after it they are authorised for nothing",
                    p => p.Left
                );
                o.Check(
                    v => v.Get(trained) is not { } first || v.Get(left) is not { } last || first <= last,
                    left,
                    "the person left before the training",
                    "`trainedOn` or later"
                );
                o.Check(
                    v => v.Get(trained) is not { } first || v.Get(until) is not { } last || first <= last,
                    until,
                    "the last day is before the first",
                    "`trainedOn` or later"
                );
                return v => new RegisteredPerson(
                    v.Get(id),
                    v.Get(authorised),
                    v.Get(trained),
                    v.Get(until),
                    v.Get(release)
                )
                {
                    Employer = v.Get(employer),
                    Crew = v.Get(crew),
                    Covers = v.Get(covers) ?? [],
                    StatesCovers = v.Get(covers) is not null,
                    TagLimitsOn = v.Get(tags),
                    InstructedOn = v.Get(instructed),
                    Left = v.Get(left),
                };
            }
        );

    public static ObjectShape<RegisteredLock> Lock { get; } =
        Shape.Object<RegisteredLock>(
            "registered-lock",
            "A lock or tag in the site's register.",
            o =>
            {
                var id = o.Required("id", Terms.NewId<LockDevice>("lock"), "the lock or tag", l => l.Id);
                var owner = o.Optional(
                    "owner",
                    Terms.Id<Participant>(),
                    "to whom it is issued; left out: a job lock",
                    l => l.Owner
                );
                var use = o.Defaulted(
                    "use",
                    Terms.Title,
                    RegisteredLock.Lockout,
                    "what it is registered for",
                    l => l.Use
                );
                var style = o.Optional(
                    "style",
                    Terms.Title,
                    "its colour, shape or make-up as the site tells its own by",
                    l => l.Style
                );
                var tag = o.Defaulted("tag", Shape.Flag, false, "whether it is a tag", l => l.IsTag);
                var legend = o.Optional("legend", Terms.Title, "what a tag warns of", l => l.Legend);
                return v => new RegisteredLock(v.Get(id), v.Get(owner))
                {
                    Use = v.Get(use),
                    Style = v.Get(style),
                    IsTag = v.Get(tag),
                    Legend = v.Get(legend),
                };
            }
        );

    public static ObjectShape<RegisteredInstrument> Instrument { get; } =
        Shape.Object<RegisteredInstrument>(
            "registered-instrument",
            "A gauge that the site owns.",
            o =>
            {
                var id = o.Required("id", Terms.NewId<Instrument>("instrument"), "the gauge", i => i.Id);
                var kind = o.Required(
                    "kind",
                    Shape.Choice<InstrumentKind>("Kinds of instrument."),
                    "its kind",
                    i => i.Kind
                );
                var resolution = o.Required(
                    "resolution",
                    Terms.Size,
                    "smallest step it shows",
                    i => i.Resolution
                );
                var uncertainty = o.Required(
                    "expandedUncertainty",
                    Terms.Size,
                    "expanded uncertainty (k = 2) of one reading: calibration, zero and repeatability together, without the step",
                    i => i.ExpandedUncertainty
                );
                o.Check(
                    v => CertifiedBounds.Hold(v.Get(uncertainty), v.Get(resolution), v.Get(kind)),
                    uncertainty,
                    CertifiedBounds.Wrong,
                    CertifiedBounds.Accepted
                );
                var measures = o.Required(
                    "measures",
                    Shape.List(Choices.Quantity, 1, FormatLimits.Words),
                    "what people read with it",
                    i => i.Measures
                );
                return v => new RegisteredInstrument(
                    v.Get(id),
                    v.Get(kind),
                    v.Get(resolution),
                    v.Get(uncertainty),
                    v.Get(measures)
                );
            }
        );

    public static ObjectShape<Waiver> Waiver { get; } =
        Shape.Object<Waiver>(
            "waiver",
            "A dated, reasoned loosening of one rule by another person.",
            o =>
            {
                var rule = o.Required("rule", Terms.Identity, "which rule", w => w.Rule);
                var unit = o.Optional("unit", Terms.Identity, "on which unit; left out: on all", w => w.Unit);
                var by = o.Required("by", Terms.Id<Participant>(), "who loosens it", w => w.By);
                var reason = o.Required("reason", Terms.Note, "why", w => w.Reason);
                var from = o.Required("from", Terms.Day, "first day", w => w.From);
                var until = o.Required("until", Terms.Day, "last day", w => w.Until);
                o.Check(
                    v => v.Get(from) <= v.Get(until),
                    until,
                    "the last day is before the first",
                    "`from` or later"
                );
                return v => new Waiver(
                    v.Get(rule),
                    v.Get(unit),
                    v.Get(by),
                    v.Get(reason),
                    v.Get(from),
                    v.Get(until)
                );
            }
        );
}
