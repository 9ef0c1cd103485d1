#include <png.h>

#include <stdexcept>

#include "core/base/ensure.h"
#include "core/picture/picture.h"

namespace swingroom {

std::string toPng(const Image& image) {
  const auto width = static_cast<std::size_t>(std::max(image.width, 0));
  const auto height = static_cast<std::size_t>(std::max(image.height, 0));
  if (width == 0 || height == 0 || image.pixels.size() != width * height) {
    throw std::invalid_argument("Image: its pixels are not width times height");
  }
  static_assert(sizeof(Rgb) == 3);
  png_image header{};
  header.version = PNG_IMAGE_VERSION;
  header.width = static_cast<png_uint_32>(width);
  header.height = static_cast<png_uint_32>(height);
  header.format = PNG_FORMAT_RGB;
  std::string bytes(PNG_IMAGE_PNG_SIZE_MAX(header), '\0');
  png_alloc_size_t size = bytes.size();
  SWINGROOM_ENSURE(
      png_image_write_to_memory(&header, bytes.data(), &size, 0, image.pixels.data(), 0, nullptr));
  bytes.resize(size);
  return bytes;
}

}  // namespace swingroom
