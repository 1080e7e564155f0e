#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"

/// Parts of the weigh-out's text, each a section or nothing. For this room.
namespace jarful::render {

/// The salt, judged or not, with its ruler, and the house bounds.
void print_salt(Page& page, const plan::WeighOut& out);
/// How the same salt comes out on other bases.
void print_other_bases(Page& page, const plan::WeighOut& out);
void print_holds(Page& page, const plan::WeighOut& out);

/// What was asked backwards and what answers it, in sentences; empty if nothing was.
[[nodiscard]] std::string answer_words(const plan::WeighOut& out, Units units);
void print_answer(Page& page, const plan::WeighOut& out, Units units);
/// That no reading keeps a bound, and what would do.
void print_refusal(Page& page, const plan::WeighOut& out, Units units);
/// The rest of a sentence: "a batch from 620 g of cabbage on; or a scale that reads 0.1 g …".
[[nodiscard]] std::string what_would_do(const plan::NoReading& none, Units units);
/// The one bowl that everything is weighed into; empty if there is none.
[[nodiscard]] std::string bowl_words(const plan::WeighOut& out, Units units);
/// The one bowl that everything is weighed into.
void print_bowl(Page& page, const plan::WeighOut& out, Units units);
/// Why a reading was moved off the nearest one.
[[nodiscard]] std::string moved_reason(const plan::WeighOut& out);
/// Whether the batch goes into the jars that were asked for; empty if none were.
[[nodiscard]] std::string named_jars(const plan::WeighOut& out, Units units);

/// The cautions under one heading: each in a sentence on a brief page, otherwise at length.
/// @param longer what has them at length, beside a brief page.
void print_safety(Page& page, const std::vector<plan::Warning>& cautions,
                  std::string_view longer = "--full");

/// Rows that bear on a figure near the edge of its range, a line or two each.
void print_nearby(Page& page, const std::vector<plan::NearbyRow>& rows, int indent);

/// A judgement in a few lines, for a list of recipes: figure, range, verdict.
[[nodiscard]] std::string salt_in_short(const plan::SaltJudgement& salt);
[[nodiscard]] std::string hold_in_short(const plan::HoldCheck& check);
/// The same with the verdict behind it.
[[nodiscard]] std::string hold_judged(const plan::HoldCheck& check);

} // namespace jarful::render
