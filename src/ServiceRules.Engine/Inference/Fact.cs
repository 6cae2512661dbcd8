namespace ServiceRules.Engine.Inference;

/// <summary>
/// Something that is known during one run. Equality is identity: working memory holds equal facts once.
/// A derived fact therefore has only members that compare by value, so that two equal ones say the same and it
/// does not matter which derivation came first.
/// </summary>
internal abstract record Fact;
