using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Planning;

/// <summary>What applicability may ask about one unit. Units with the same <see cref="Key"/> answer alike.</summary>
internal sealed class UnitTraits
{
    private readonly ImmutableArray<Attachment> _attachments;
    private readonly ImmutableArray<AdjusterKind> _turned;
    private readonly ImmutableArray<MeasuredQuantity> _read;
    private readonly ImmutableArray<MeasuredQuantity> _readAlong;
    private readonly ContactSchool? _school;
    private readonly LimitSheet _sheet;
    private readonly bool _ground;

    public UnitTraits(UnitFrame unit)
    {
        _sheet = unit.Sheet;
        _school = unit.School;
        _attachments = Distinct(unit.Work.Attachments);
        _turned = Distinct(unit.Work.Entries.OfType<Adjustment>().Select(entry => entry.Adjuster));
        _read = Distinct(unit.Work.Entries.OfType<Reading>().Select(entry => entry.Quantity));
        _readAlong = Distinct(
            unit.Work.Entries.OfType<Reading>()
                .GroupBy(entry => entry.Quantity)
                .Where(IsReadAlong)
                .Select(alike => alike.Key)
        );
        _ground = unit.Work.Entries.OfType<Grinding>().Any();
        Tasks = Distinct(unit.Tasks);
        Key =
            $"{_sheet.Id}|{_school}|{string.Join(',', Tasks)}|{string.Join(',', _attachments)}"
            + $"|{string.Join(',', _turned)}|{string.Join(',', _read)}|{string.Join(',', _readAlong)}|{_ground}";
    }

    public ImmutableArray<ServiceTask> Tasks { get; }

    public string Key { get; }

    public bool Satisfies(Applicability when) =>
        (when.Sheets.IsEmpty || when.Sheets.Contains(_sheet.Id.Text, StringComparer.Ordinal))
        && (when.Bedknife is not { } bedknife || bedknife == _sheet.Bedknife)
        && when.Attachments.All(_attachments.Contains)
        && (when.School is not { } school || school == _school)
        && (when.AnyTurned.IsEmpty || when.AnyTurned.Any(_turned.Contains))
        && (when.AnyRead.IsEmpty || when.AnyRead.Any(_read.Contains))
        && (when.AnyReadAlong.IsEmpty || when.AnyReadAlong.Any(_readAlong.Contains))
        && (when.Ground is not { } ground || ground == _ground)
        && (when.SheetStates is not { } quantity || _sheet.Of(quantity) is not null);

    private bool IsReadAlong(IGrouping<MeasuredQuantity, Reading> readings) =>
        readings
            .Where(entry => entry.Observed is Observation.Measured or Observation.FeelerTest)
            .Select(entry => StationPlaces.DistanceOf(entry.Station, entry.Quantity, _sheet))
            .OfType<Length>()
            .Distinct()
            .Skip(1)
            .Any();

    internal static ImmutableArray<T> Distinct<T>(IEnumerable<T> values)
        where T : struct, Enum => [.. values.Distinct().Order()];
}
