using ServiceRules.Application.RuleCases.Coverage;

namespace ServiceRules.Host.Packs;

/// <summary>Something that no case exercises, with where it stands.</summary>
internal sealed record ToldGap(
    string Of,
    string Part,
    string Side,
    string File,
    string Pointer,
    int Line,
    int Column
)
{
    public static ToldGap From(CoveragePart part) =>
        new(
            part.Of,
            part.Part,
            part.Side,
            part.Place.File,
            part.Place.Pointer,
            part.Place.Line,
            part.Place.Column
        );
}
